using Clackbeat.Season.Upkeep;
using Clackbeat.Words;

namespace Clackbeat.Season.Wording;

/// <summary>Checks as a keeper reads them.</summary>
public static class UpkeepText
{
    /// <summary>What is checked, and how.</summary>
    /// <param name="due">The check.</param>
    public static string Task(UpkeepDue due) => Catalogue.Current.Say($"upkeep-task.{due.Task.Code}");

    /// <summary>How often.</summary>
    /// <param name="interval">The interval.</param>
    public static string Every(UpkeepInterval interval) => string.Join(Phrases.Say("upkeep.or"), Parts(interval.Days, interval.Hours, interval.Beats));

    /// <summary>What has gone by since.</summary>
    /// <param name="due">The check.</param>
    public static string Since(UpkeepDue due)
    {
        string counted = string.Join(", ", Parts(due.Days, due.Interval.Hours is null ? null : due.Hours, due.Interval.Beats is null ? null : due.Beats));
        string silent = due.Interval.Hours is not null && due.UnrecordedH >= 1 ? " " + Phrases.Say("upkeep.unrecorded", ("hours", Math.Round(due.UnrecordedH))) : "";
        return (due.Last is { } last ? Phrases.Say("upkeep.since", ("day", SeasonText.Day(last)), ("counted", counted)) : Phrases.Say("upkeep.never", ("counted", counted))) + silent;
    }

    /// <summary>Whether it is due, and why.</summary>
    /// <param name="due">The check.</param>
    public static string Standing(UpkeepDue due) => due switch
    {
        { Sign: { } sign } => Phrases.Say("upkeep.by-trend", ("figure", SeasonUnit.Of(sign).Name)),
        { Used: >= 1 } => Phrases.Say("upkeep.due"),
        _ => Phrases.Say("upkeep.not-yet", ("share", due.Used)),
    };

    private static IEnumerable<string> Parts(double? days, double? hours, double? beats)
    {
        if (days is { } d)
        {
            yield return Phrases.Say("upkeep.days", ("days", Math.Round(d)));
        }

        if (hours is { } h)
        {
            yield return Phrases.Say("upkeep.hours", ("hours", Math.Round(h)));
        }

        if (beats is { } b)
        {
            yield return Phrases.Say("upkeep.beats", ("millions", b / 1e6));
        }
    }
}
