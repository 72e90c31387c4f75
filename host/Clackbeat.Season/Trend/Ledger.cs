using Clackbeat.Season.Store;
using Clackbeat.Signal.States;

namespace Clackbeat.Season.Trend;

/// <summary>What a day or a month brought.</summary>
/// <param name="From">Its first day.</param>
public sealed record LedgerLine(DateOnly From)
{
    /// <summary>Water delivered in the metered hours [m³].</summary>
    public double DeliveredM3 { get; init; }

    /// <summary>Its expanded uncertainty [m³]; errors of a meter of pressures don't average out, so they add up.</summary>
    public double DeliveredU { get; init; }

    /// <summary>True where some of that water is an upper bound: less may have arrived.</summary>
    public bool IsUpperBound { get; init; }

    /// <summary>Hours it beat.</summary>
    public double RunningH { get; init; }

    /// <summary>Of these, hours whose flow is known.</summary>
    public double MeteredH { get; init; }

    /// <summary>Hours it stood.</summary>
    public double StoppedH { get; init; }

    /// <summary>Hours of which nothing is known, from the first day of the store to the last; filled by <see cref="Ledger.WithSilence"/>.</summary>
    public double UnrecordedH { get; init; }

    /// <summary>Miner's sum added, central, low, high.</summary>
    public (double Central, double Low, double High) Fatigue { get; init; }

    /// <summary>Two stretches as one, under the first's date.</summary>
    internal LedgerLine Plus(LedgerLine other) => this with
    {
        DeliveredM3 = DeliveredM3 + other.DeliveredM3,
        DeliveredU = DeliveredU + other.DeliveredU,
        IsUpperBound = IsUpperBound || other.IsUpperBound,
        RunningH = RunningH + other.RunningH,
        MeteredH = MeteredH + other.MeteredH,
        StoppedH = StoppedH + other.StoppedH,
        UnrecordedH = UnrecordedH + other.UnrecordedH,
        Fatigue = (Fatigue.Central + other.Fatigue.Central, Fatigue.Low + other.Fatigue.Low, Fatigue.High + other.Fatigue.High),
    };
}

/// <summary>Counts water, hours and fatigue on, each burst for the time it stands for (<see cref="Standing"/>).</summary>
public static class Ledger
{

    /// <summary>Days with any burst, oldest first.</summary>
    /// <param name="store">The store.</param>
    /// <param name="ram">The ram.</param>
    /// <param name="span">Of which bursts.</param>
    /// <param name="zone">Where the days begin.</param>
    public static IReadOnlyList<LedgerLine> Days(ISeasonStore store, string ram, TimeSpanUtc span, TimeZoneInfo zone)
    {
        IReadOnlyList<BurstState> states = store.States(ram, span);
        var flow = new SeriesFollower(store.Series(ram, SeasonFigure.Delivered, span));
        var central = new SeriesFollower(store.Series(ram, SeasonFigure.FatiguePerHour, span));
        bool tires = !central.IsEmpty;
        var low = new SeriesFollower(tires ? store.Series(ram, SeasonFigure.FatiguePerHourLow, span) : []);
        var high = new SeriesFollower(tires ? store.Series(ram, SeasonFigure.FatiguePerHourHigh, span) : []);
        var calendar = new DayFinder(zone);
        var days = new SortedDictionary<DateOnly, LedgerLine>();
        foreach ((BurstState burst, DateTimeOffset from, DateTimeOffset end) in Standing.Of(states))
        {
            DateTimeOffset at = from;
            (SeasonPoint? Flow, double Central, double Low, double High) told =
                (flow.At(at), central.At(at)?.Value ?? 0, low.At(at)?.Value ?? 0, high.At(at)?.Value ?? 0);

            // A stretch across midnight belongs to both days.
            while (at < end)
            {
                (DateOnly day, DateTimeOffset midnight) = calendar.Of(at);
                DateTimeOffset until = midnight < end ? midnight : end;
                LedgerLine line = Line(day, (until - at).TotalHours, burst.State, told);
                days[day] = days.TryGetValue(day, out LedgerLine? sum) ? sum.Plus(line) : line;
                at = until;
            }
        }

        return [.. days.Values];
    }

    /// <summary>
    /// The days with what was not recorded of each, and the days between of which there is no burst at all: a sum over them
    /// hides no silence.
    /// </summary>
    /// <param name="days">What <see cref="Days"/> gave.</param>
    /// <param name="zone">Where the days begin; days on which clocks change are longer or shorter.</param>
    public static IReadOnlyList<LedgerLine> WithSilence(IReadOnlyList<LedgerLine> days, TimeZoneInfo zone)
    {
        var all = new List<LedgerLine>();
        foreach (LedgerLine line in days)
        {
            for (DateOnly silent = all.Count > 0 ? all[^1].From.AddDays(1) : line.From; silent < line.From; silent = silent.AddDays(1))
            {
                all.Add(new LedgerLine(silent) { UnrecordedH = HoursOf(silent, zone) });
            }

            all.Add(line with { UnrecordedH = Math.Max(0, HoursOf(line.From, zone) - line.RunningH - line.StoppedH) });
        }

        return all;
    }

    private static double HoursOf(DateOnly day, TimeZoneInfo zone)
    {
        var midnight = day.ToDateTime(TimeOnly.MinValue);
        return 24 - (zone.GetUtcOffset(midnight.AddDays(1)) - zone.GetUtcOffset(midnight)).TotalHours;
    }

    /// <summary>Months from days.</summary>
    /// <param name="days">What <see cref="Days"/> gave.</param>
    public static IReadOnlyList<LedgerLine> Months(IReadOnlyList<LedgerLine> days) =>
    [
        .. days.GroupBy(d => new DateOnly(d.From.Year, d.From.Month, 1))
            .Select(g => g.Aggregate(new LedgerLine(g.Key), (sum, day) => sum.Plus(day))),
    ];

    /// <summary>All of it as one line under the first's date.</summary>
    /// <param name="lines">Days or months; one at least.</param>
    public static LedgerLine Sum(IReadOnlyList<LedgerLine> lines) => lines.Aggregate((sum, line) => sum.Plus(line));

    private static LedgerLine Line(
        DateOnly day, double hours, RamState state, (SeasonPoint? Flow, double Central, double Low, double High) told)
    {
        if (state != RamState.Beating)
        {
            return new LedgerLine(day) { StoppedH = state == RamState.NoSignal ? 0 : hours };
        }

        return new LedgerLine(day)
        {
            RunningH = hours,
            MeteredH = told.Flow is null ? 0 : hours,
            DeliveredM3 = (told.Flow?.Value ?? 0) * hours * 3600,
            DeliveredU = (told.Flow?.U ?? 0) * hours * 3600,
            IsUpperBound = told.Flow is { IsUpperBound: true },
            Fatigue = (told.Central * hours, told.Low * hours, told.High * hours),
        };
    }
}
