using Clackbeat.Hydraulics.Rating;
using Clackbeat.Site.Facts;

namespace Clackbeat.Report.Wording;

/// <summary>The changes that a virtual ram tried, as facts to be told.</summary>
public static class RemedyWords
{
    /// <summary>The change in a few words.</summary>
    /// <param name="change">The change.</param>
    public static Fact Name(RemedyChange change) => change.Code switch
    {
        RemedyCode.LighterValve => Fact.Of("remedy.lighter"),
        RemedyCode.ShorterStroke => Fact.Of("remedy.stroke"),
        RemedyCode.StrongerClass => Fact.Of("remedy.class", ("pipe", change.Pipe)),
        RemedyCode.StifferPipe => Fact.Of("remedy.stiffer", ("pipe", change.Pipe)),
        RemedyCode.SofterPipe => Fact.Of("remedy.softer"),
        RemedyCode.MoreAir => Fact.Of("remedy.more-air"),
        RemedyCode.NoAir => Fact.Of("remedy.no-air"),
        _ => Fact.Of("remedy.as-it-is"),
    };

    /// <summary>How it is done and what to mind; null for the ram as it is.</summary>
    /// <param name="change">The change.</param>
    public static Fact? Meaning(RemedyChange change) => change.Code switch
    {
        RemedyCode.LighterValve => Fact.Of("remedy.lighter-meaning"),
        RemedyCode.ShorterStroke => Fact.Of("remedy.stroke-meaning"),
        RemedyCode.StrongerClass => Fact.Of("remedy.class-meaning"),
        RemedyCode.StifferPipe => Fact.Of("remedy.stiffer-meaning"),
        RemedyCode.SofterPipe => Fact.Of("remedy.softer-meaning"),
        RemedyCode.MoreAir => Fact.Of("remedy.more-air-meaning"),
        RemedyCode.NoAir => Fact.Of("remedy.no-air-meaning"),
        _ => null,
    };

    /// <summary>Why nothing is told of a change.</summary>
    /// <param name="left">The change and the reason.</param>
    public static Fact NotTried((RemedyChange Change, RemedyLack Lack) left) => left.Lack switch
    {
        RemedyLack.Time => Fact.Of("remedy.no-time", ("change", Name(left.Change))),
        RemedyLack.NoBeat => Fact.Of("remedy.no-beat"),
        _ => Fact.Of("remedy.stops", ("change", Name(left.Change))),
    };
}
