using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.States;
using Clackbeat.Site.Facts;

namespace Clackbeat.Season.Overview;

/// <summary>Which rams need a visit, and why. It reads summaries only, so it costs the same for a season as for ten years.</summary>
public static class VisitRules
{
    // A judgement: over a virtual year, level and wear included, it stays between 90 and 113 %.
    private const double LeastShareOfUsual = 0.8;

    // A schedule of a quarter of an hour may miss some bursts in a storm without a visit.
    private static readonly TimeSpan ShortestSilence = TimeSpan.FromHours(6);

    /// <summary>Judges all rams, the one that needs a visit most first.</summary>
    /// <param name="summaries">What the store holds of each.</param>
    /// <param name="entries">What a list says of them, by name; may be empty.</param>
    /// <param name="atUtc">Now.</param>
    public static IReadOnlyList<RamVisit> Judge(
        IEnumerable<RamSummary> summaries, IReadOnlyDictionary<string, RamEntry> entries, DateTimeOffset atUtc) =>
    [
        .. summaries.Select(s => Judge(s, entries.GetValueOrDefault(s.Ram), atUtc))
            .OrderBy(v => v.Urgency).ThenBy(v => v.ShareOfNeed ?? v.ShareOfUsual ?? 1).ThenBy(v => v.Summary.Ram, StringComparer.Ordinal),
    ];

    private static RamVisit Judge(RamSummary ram, RamEntry? entry, DateTimeOffset atUtc)
    {
        SeasonValue? daily = ram.Delivered is { Week: var week }
            ? week with { Value = week.Value * ram.BeatingShare, U = week.U * ram.BeatingShare }
            : ram.Last.State is RamState.StoppedOpen or RamState.StoppedShut && ram.BeatingShare == 0 ? new SeasonValue(0, null) : null;
        double? usual = ram.Delivered is { Week: { IsUpperBound: false } now, Before: { IsUpperBound: false, Value: > 0 } before } ? now.Value / before.Value : null;
        double? need = entry?.NeedM3PerS is > 0 and var asked && daily is { } given ? given.Value / asked : null;
        (string Code, double Probability)? fault = Fault(ram);
        var reasons = Reasons(ram, daily, usual, need, fault, atUtc).OrderBy(r => r.Urgency).ToList();
        return new RamVisit(
            ram, entry, reasons.Count > 0 ? reasons[0].Urgency : VisitUrgency.None, [.. reasons.Select(r => r.Why)], reasons.Select(r => r.ToDo).FirstOrDefault(), fault)
        {
            DailyM3PerS = daily,
            ShareOfUsual = usual,
            ShareOfNeed = need,
        };
    }

    private static IEnumerable<(VisitUrgency Urgency, Fact Why, Fact ToDo)> Reasons(
        RamSummary ram, SeasonValue? daily, double? usual, double? need, (string Code, double Probability)? fault, DateTimeOffset atUtc)
    {
        if (ram.RatingUse is { Week.Value: > 1 and var use })
        {
            yield return (VisitUrgency.Now, Fact.Of("visit.pipe-over", ("share", use)), Fact.Of("visit.stop-it"));
        }

        // What was heard last says little once the logger is silent: whether the ram beats now is unknown.
        TimeSpan quiet = atUtc - ram.Last.AtUtc;
        if (quiet > LongestQuiet(ram))
        {
            yield return (VisitUrgency.Soon, Silent(quiet), Fact.Of("visit.look-at-logger"));
        }

        switch (ram.Last.State)
        {
            case RamState.StoppedShut:
                yield return (VisitUrgency.Now, Fact.Of("visit.stopped"), ConditionTraits.Advice(Conditions.StoppedShut));
                break;
            case RamState.StoppedOpen:
                yield return (VisitUrgency.Now, Fact.Of("visit.stopped"), ConditionTraits.Advice(Conditions.StoppedOpen));
                break;
            case RamState.NoSignal:
                yield return (VisitUrgency.Soon, Fact.Of("visit.no-signal"), ConditionTraits.Advice(Conditions.SensorFault));
                break;
            case RamState.Beating when fault is { } likely:
                yield return (VisitUrgency.Soon, ConditionTraits.Name(likely.Code), ConditionTraits.Advice(likely.Code));
                break;
            default:
                break;
        }

        // An upper bound below the need is below it whatever the truth.
        if (need < 1 && daily is { } given && (given.IsUpperBound || given.U is not { } u || given.Value + u < given.Value / need))
        {
            yield return (VisitUrgency.Soon, Fact.Of("visit.under-need", ("share", need.Value)), Fact.Of("visit.compare"));
        }

        if (usual < LeastShareOfUsual)
        {
            yield return (VisitUrgency.Soon, Fact.Of("visit.under-usual", ("share", usual.Value)), Fact.Of("visit.compare"));
        }
    }

    private static Fact Silent(TimeSpan quiet) => quiet.TotalDays >= 2
        ? Fact.Of("visit.silent", ("days", Math.Floor(quiet.TotalDays)))
        : Fact.Of("visit.silent-hours", ("hours", Math.Floor(quiet.TotalHours)));

    // After three usual spacings the ram is unknown, as in hours and calendar.
    private static TimeSpan LongestQuiet(RamSummary ram)
    {
        var usual = TimeSpan.FromSeconds(Standing.MostSpacings * (ram.SpacingS ?? 0));
        return usual > ShortestSilence ? usual : ShortestSilence;
    }

    private static (string Code, double Probability)? Fault(RamSummary ram) => ram.Conditions
        .Where(c => c.Key != Conditions.Healthy && c.Value >= FindingRules.LeastWorthChecking && ConditionTraits.Codes.Contains(c.Key))
        .OrderByDescending(c => c.Value).Select(c => ((string, double)?)(c.Key, c.Value)).FirstOrDefault();
}
