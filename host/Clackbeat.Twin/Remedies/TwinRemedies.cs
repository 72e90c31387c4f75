using Clackbeat.Hydraulics.Rating;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Check;
using Clackbeat.Site.Model;
using Clackbeat.Twin.Changes;
using Clackbeat.Twin.Fitting;
using Clackbeat.Twin.Model;
using Clackbeat.VirtualRam.Remedies;

namespace Clackbeat.Twin.Remedies;

/// <summary>
/// What would help the drive pipe of a recorded ram: its twin after each change, each figure with its ±. A fatigue life is the record's,
/// times the ratio of the lives that the twin's own beats give.
/// </summary>
public static class TwinRemedies
{
    private const double ThreeTenths = 0.3;

    /// <summary>The table; null where the twin doesn't fit, or the record gives no water.</summary>
    /// <param name="site">The site.</param>
    /// <param name="analysis">The analysis of the record.</param>
    /// <param name="twin">The twin fitted to it.</param>
    /// <param name="stop">Ends the work early.</param>
    public static RemedyTable? Of(RamSite site, RamAnalysis analysis, FittedTwin twin, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(analysis);
        ArgumentNullException.ThrowIfNull(twin);
        if (!twin.Fits)
        {
            return null;
        }

        var questions = new WhatIf(site, analysis, twin);
        double weight = twin.Frame.Designed.Water.DensityKgPerM3 * Hydraulics.Water.Constants.GravityMPerS2;
        FatigueLife? own = BeatLife.Of(site, twin.Cycle, weight).FatigueLifeYears;
        if (Line(site, new RemedyChange(RemedyCode.AsItIs), questions.AsIs, analysis.Pipe.FatigueLifeYears, analysis.Pipe.FatigueVerdict) is not { } asItIs)
        {
            return null;
        }

        var changes = new List<Remedy>();
        var notTried = new List<(RemedyChange, RemedyLack)>();
        (RemedyChange Name, RamChange Change)[] tried = [.. Tried(site)];
        Prediction[] told = SideBySide.Of(tried.Length, i => questions.Of(tried[i].Change), stop);
        for (int i = 0; i < tried.Length; i++)
        {
            RemedyChange name = tried[i].Name;
            RamSite changed = tried[i].Change.Site(site);
            PipeCheck? beats = told[i].Beat is { } beat ? BeatLife.Of(changed, beat, weight) : null;
            if (Line(changed, name, told[i], Scaled(analysis.Pipe.FatigueLifeYears, own, beats?.FatigueLifeYears), beats?.FatigueVerdict ?? PipeVerdict.Unknown) is { } line)
            {
                changes.Add(line);
            }
            else
            {
                notTried.Add((name, RemedyLack.Stops));
            }
        }

        return new RemedyTable(asItIs, changes, notTried, 1) { IsOfTwin = true };
    }

    private static IEnumerable<(RemedyChange Name, RamChange Change)> Tried(RamSite site) =>
    [
        (new RemedyChange(RemedyCode.LighterValve), new RamChange { Weight = 1 - ThreeTenths }),
        (new RemedyChange(RemedyCode.ShorterStroke), new RamChange { Stroke = 1 - ThreeTenths }),
        .. OtherPipes.For(site).Select(p => (p.Change, new RamChange { LaidPipe = p.Site.DrivePipe })),
    ];

    private static Remedy? Line(RamSite site, RemedyChange name, Prediction ram, FatigueLife? life, PipeVerdict fatigue)
    {
        if (ram is not { PeakPa: { } peak, DeliveredM3PerS: { } delivered, WasteM3PerS: { } waste, RatePerMin: { } rate })
        {
            return null;
        }

        PipeCheck check = PipeRating.Check(SiteLoad.Of(site) with { PeakPa = peak.Value, PeakUncertaintyPa = peak.U, BeatsPerMin = rate.Value });
        return new Remedy
        {
            Change = name,
            PeakPa = Estimated(peak),
            Margin = check.Margin is { } margin ? new Estimate(margin, margin * peak.U / peak.Value) : null,
            LifeYears = life,
            DeliveredM3PerS = Estimated(delivered),
            WasteM3PerS = Estimated(waste),
            BeatsPerMin = Estimated(rate),
            Verdict = check.Verdict,
            FatigueVerdict = fatigue,
        };
    }

    private static Estimate Estimated(Figure figure) => new(figure.Value, figure.U);

    private static FatigueLife? Scaled(FatigueLife? record, FatigueLife? before, FatigueLife? after)
    {
        if (record is null || before is null || after is null)
        {
            return null;
        }

        double ratio = after.Value / before.Value;
        return new FatigueLife(record.Value * ratio, record.Low * ratio, record.High * ratio);
    }
}
