using Clackbeat.Hydraulics;
using Clackbeat.Planning.Demand;
using Clackbeat.Planning.Plans;
using Clackbeat.Season.Trend;
using Clackbeat.Site.Facts;

namespace Clackbeat.Commands.Plan;

/// <summary>What a ram really delivered in each month of the year, by its season store, beside what is needed.</summary>
internal sealed record SeasonSupply
{
    private const double LitresPerDay = 86_400_000;
    private const double SecondsPerHour = 3600;

    // A day of record is the least that says anything of a month.
    private const double LeastHours = 24;

    /// <summary>First and last day of the store.</summary>
    public required (DateOnly From, DateOnly Until) Span { get; init; }

    /// <summary>The twelve months, January first; the years of a month are taken together.</summary>
    public required IReadOnlyList<SeasonMonth> Months { get; init; }

    /// <summary>Water beside the need over a whole year; null where a month is missing or nothing is needed.</summary>
    public required Sufficiency? Enough { get; init; }

    /// <summary>Needed in each month [m³/s]; empty where nothing is.</summary>
    public required IReadOnlyList<double> NeedM3PerS { get; init; }

    /// <summary>Adds a store's days up.</summary>
    /// <param name="days">The days, with those of which nothing is known.</param>
    /// <param name="needed">Needed in each month [m³/s]; empty where nothing is.</param>
    /// <param name="shortfall">Share of the year's need that may stay unmet.</param>
    public static SeasonSupply Of(IReadOnlyList<LedgerLine> days, IReadOnlyList<double> needed, double shortfall)
    {
        SeasonMonth[] months = [.. Enumerable.Range(1, 12).Select(m => Month(m, [.. days.Where(d => d.From.Month == m)]))];
        return new SeasonSupply
        {
            Span = (days[0].From, days[^1].From),
            Months = months,
            NeedM3PerS = needed,
            Enough = needed.Count == 12 && months.All(m => m.DeliveredM3PerS is not null)
                ? Sufficiency.Of([.. months.Select(m => m.DeliveredM3PerS!.Value)], needed, shortfall)
                : null,
        };
    }

    /// <summary>What it comes to, in sentences.</summary>
    public IEnumerable<Fact> Facts()
    {
        foreach (Fact fact in PlanHeadline.Enough(Enough))
        {
            yield return fact;
        }

        SeasonMonth[] known = [.. Months.Where(m => m.DeliveredM3PerS is not null).OrderBy(m => m.DeliveredM3PerS!.Value.Middle)];
        if (known.Length > 2)
        {
            yield return Fact.Of(
                "plan-driest-month", ("month", PlanHeadline.Names([known[0].Month])), ("least_l_per_day", LitresPerDay * known[0].DeliveredM3PerS!.Value.Middle),
                ("usual_l_per_day", LitresPerDay * known[known.Length / 2].DeliveredM3PerS!.Value.Middle));
        }

        int[] missing = [.. Months.Where(m => m.DeliveredM3PerS is null).Select(m => m.Month)];
        if (missing.Length > 0)
        {
            yield return Fact.Of("plan-months-unrecorded", ("months", missing.Length), ("which", PlanHeadline.Names(missing)));
        }

        double running = Months.Sum(m => m.RunningH);
        double metered = Months.Sum(m => m.MeteredH);
        if (metered < 0.99 * running)
        {
            yield return Fact.Of("plan-hours-unmetered", ("share", metered / running));
        }

        if (Months.Any(m => m.IsUpperBound))
        {
            yield return Fact.Of("plan-upper-bounds");
        }
    }

    private static SeasonMonth Month(int month, IReadOnlyList<LedgerLine> days)
    {
        if (days.Count == 0)
        {
            return new SeasonMonth(month, 0, 0, 0, null, false);
        }

        LedgerLine sum = Ledger.Sum(days);
        double knownH = sum.RunningH + sum.StoppedH;
        bool isKnown = knownH >= LeastHours && (sum.MeteredH > 0 || sum.RunningH <= 0);

        // The hours whose flow isn't known are taken to be like the metered ones; those without any record like all that have one.
        double share = isKnown && sum.MeteredH > 0 ? sum.RunningH / sum.MeteredH / (knownH * SecondsPerHour) : 0;
        Band? delivered = isKnown
            ? new Band(Math.Max(0, share * (sum.DeliveredM3 - sum.DeliveredU)), share * (sum.DeliveredM3 + sum.DeliveredU))
            : null;
        return new SeasonMonth(month, sum.RunningH, sum.MeteredH, sum.StoppedH, delivered, sum.IsUpperBound);
    }
}

/// <summary>A month of the year, over all years of a store.</summary>
/// <param name="Month">1 for January.</param>
/// <param name="RunningH">Hours it beat.</param>
/// <param name="MeteredH">Of these, hours whose flow is known.</param>
/// <param name="StoppedH">Hours it stood.</param>
/// <param name="DeliveredM3PerS">Delivered on the average, standing still among it [m³/s]; null where less than a day is known.</param>
/// <param name="IsUpperBound">Some of that is an upper bound.</param>
internal sealed record SeasonMonth(int Month, double RunningH, double MeteredH, double StoppedH, Band? DeliveredM3PerS, bool IsUpperBound);
