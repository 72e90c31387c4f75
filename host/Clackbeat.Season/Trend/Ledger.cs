using Clackbeat.Season.Store;
using Clackbeat.Signal.Analysis;

namespace Clackbeat.Season.Trend;

/// <summary>What a day or a month brought.</summary>
/// <param name="From">Its first day.</param>
public sealed record LedgerLine(DateOnly From)
{
    /// <summary>Water delivered in the metered hours [m³].</summary>
    public double DeliveredM3 { get; init; }

    /// <summary>Its expanded uncertainty [m³]; errors of a meter of pressures don't average out, so they add up.</summary>
    public double DeliveredU { get; init; }

    /// <summary>Hours it beat.</summary>
    public double RunningH { get; init; }

    /// <summary>Of these, hours whose flow is known.</summary>
    public double MeteredH { get; init; }

    /// <summary>Hours it stood.</summary>
    public double StoppedH { get; init; }

    /// <summary>Miner's sum added, central, low, high.</summary>
    public (double Central, double Low, double High) Fatigue { get; init; }

    /// <summary>Two stretches as one, under the first's date.</summary>
    internal LedgerLine Plus(LedgerLine other) => this with
    {
        DeliveredM3 = DeliveredM3 + other.DeliveredM3,
        DeliveredU = DeliveredU + other.DeliveredU,
        RunningH = RunningH + other.RunningH,
        MeteredH = MeteredH + other.MeteredH,
        StoppedH = StoppedH + other.StoppedH,
        Fatigue = (Fatigue.Central + other.Fatigue.Central, Fatigue.Low + other.Fatigue.Low, Fatigue.High + other.Fatigue.High),
    };
}

/// <summary>
/// Counts water, hours and fatigue on. Each burst stands for the time until the next one, but never for more than three usual
/// spacings: after that the ram is unknown, neither running nor stopped.
/// </summary>
public static class Ledger
{
    private const double MostSpacings = 3;

    /// <summary>Days with any burst, oldest first.</summary>
    /// <param name="store">The store.</param>
    /// <param name="ram">The ram.</param>
    /// <param name="span">Of which bursts.</param>
    /// <param name="zone">Where the days begin.</param>
    public static IReadOnlyList<LedgerLine> Days(ISeasonStore store, string ram, TimeSpanUtc span, TimeZoneInfo zone)
    {
        IReadOnlyList<BurstState> states = store.States(ram, span);
        SeasonFigure[] figures = [SeasonFigure.Delivered, SeasonFigure.FatiguePerHour, SeasonFigure.FatiguePerHourLow, SeasonFigure.FatiguePerHourHigh];
        Dictionary<DateTimeOffset, SeasonPoint>[] values = [.. figures.Select(f => ByTime(store.Series(ram, f, span)))];
        double usualS = UsualSpacingS(states);
        var days = new SortedDictionary<DateOnly, LedgerLine>();
        for (int i = 0; i < states.Count; i++)
        {
            BurstState burst = states[i];
            double toNextS = i + 1 < states.Count ? (states[i + 1].AtUtc - burst.AtUtc).TotalSeconds : usualS;
            double standsS = toNextS <= MostSpacings * usualS ? toNextS : Math.Max(usualS, burst.DurationS);
            foreach ((DateOnly day, double hours) in Split(burst.AtUtc, standsS, zone))
            {
                LedgerLine line = Line(day, hours, burst, values);
                days[day] = days.TryGetValue(day, out LedgerLine? sum) ? sum.Plus(line) : line;
            }
        }

        return [.. days.Values];
    }

    /// <summary>Months from days.</summary>
    /// <param name="days">What <see cref="Days"/> gave.</param>
    public static IReadOnlyList<LedgerLine> Months(IReadOnlyList<LedgerLine> days) =>
    [
        .. days.GroupBy(d => new DateOnly(d.From.Year, d.From.Month, 1))
            .Select(g => g.Aggregate(new LedgerLine(g.Key), (sum, day) => sum.Plus(day))),
    ];

    private static LedgerLine Line(DateOnly day, double hours, BurstState burst, Dictionary<DateTimeOffset, SeasonPoint>[] values)
    {
        if (burst.State != RamState.Beating)
        {
            return new LedgerLine(day) { StoppedH = burst.State == RamState.NoSignal ? 0 : hours };
        }

        double Of(int i) => values[i].TryGetValue(burst.AtUtc, out SeasonPoint point) ? point.Value * hours : 0;
        bool metered = values[0].TryGetValue(burst.AtUtc, out SeasonPoint flow);
        return new LedgerLine(day)
        {
            RunningH = hours,
            MeteredH = metered ? hours : 0,
            DeliveredM3 = metered ? flow.Value * hours * 3600 : 0,
            DeliveredU = metered ? (flow.U ?? 0) * hours * 3600 : 0,
            Fatigue = (Of(1), Of(2), Of(3)),
        };
    }

    // A stretch across midnight belongs to both days.
    private static IEnumerable<(DateOnly Day, double Hours)> Split(DateTimeOffset from, double lengthS, TimeZoneInfo zone)
    {
        DateTimeOffset end = from.AddSeconds(lengthS);
        while (from < end)
        {
            DateOnly day = DailySeries.DayOf(from, zone);
            DateTimeOffset midnight = StartOf(day.AddDays(1), zone);
            DateTimeOffset until = midnight > from && midnight < end ? midnight : end;
            yield return (day, (until - from).TotalHours);
            from = until;
        }
    }

    private static DateTimeOffset StartOf(DateOnly day, TimeZoneInfo zone)
    {
        DateTime local = day.ToDateTime(TimeOnly.MinValue);

        // Where clocks are put forward at midnight, the day begins at the first time there is.
        while (zone.IsInvalidTime(local))
        {
            local = local.AddMinutes(15);
        }

        return new DateTimeOffset(local, zone.GetUtcOffset(local)).ToUniversalTime();
    }

    private static double UsualSpacingS(IReadOnlyList<BurstState> states)
    {
        double[] spacings = [.. states.Zip(states.Skip(1), (a, b) => (b.AtUtc - a.AtUtc).TotalSeconds).Order()];
        return spacings.Length > 0 ? spacings[spacings.Length / 2] : states.Count > 0 ? states[0].DurationS : 0;
    }

    // Two bursts that began at one instant count once.
    private static Dictionary<DateTimeOffset, SeasonPoint> ByTime(IReadOnlyList<SeasonPoint> points)
    {
        var byTime = new Dictionary<DateTimeOffset, SeasonPoint>(points.Count);
        foreach (SeasonPoint point in points)
        {
            byTime.TryAdd(point.AtUtc, point);
        }

        return byTime;
    }
}
