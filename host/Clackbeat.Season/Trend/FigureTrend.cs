using Clackbeat.Season.Store;

namespace Clackbeat.Season.Trend;

/// <summary>All that is told of a figure over a season: its days, changes, and the trend since the last change.</summary>
public sealed record FigureTrend
{
    /// <summary>The figure.</summary>
    public required SeasonFigure Figure { get; init; }

    /// <summary>Days as measured.</summary>
    public required IReadOnlyList<DayValue> Measured { get; init; }

    /// <summary>Days that changes and trend rest on: brought to one supply level where <see cref="Correction"/> isn't null.</summary>
    public required IReadOnlyList<DayValue> Days { get; init; }

    /// <summary>What was taken out for the supply level; null where nothing was, or the level hardly moved.</summary>
    public HeadCorrection? Correction { get; init; }

    /// <summary>Changes, oldest first.</summary>
    public required IReadOnlyList<ChangePoint> Changes { get; init; }

    /// <summary>Trend since the last change, its interval widened by what the seasons may do; null for too few days.</summary>
    public TrendLine? Recent { get; init; }

    /// <summary>First day of <see cref="Recent"/>; null without one.</summary>
    public DateOnly? RecentFrom { get; init; }

    /// <summary>
    /// True where <see cref="Recent"/> rests on days that give upper bounds and on days that give figures: its slope may be the
    /// difference of the two.
    /// </summary>
    public bool RecentMixesBounds { get; init; }

    /// <summary>Level of each calendar month.</summary>
    public required IReadOnlyList<MonthLevel> Months { get; init; }

    /// <summary>Whether the value before a change is an upper bound: most of the days from the change before up to it are.</summary>
    /// <param name="change">One of <see cref="Changes"/>.</param>
    public bool IsBoundBefore(ChangePoint change) =>
        AreBounds(Days.Where(d => d.X < change.At && d.X >= Changes.Where(c => c.At < change.At).Select(c => c.At).DefaultIfEmpty(double.NegativeInfinity).Max()));

    /// <summary>Whether the value after a change is an upper bound.</summary>
    /// <param name="change">One of <see cref="Changes"/>.</param>
    public bool IsBoundAfter(ChangePoint change) =>
        AreBounds(Days.Where(d => d.X >= change.At && d.X < Changes.Where(c => c.At > change.At).Select(c => c.At).DefaultIfEmpty(double.PositiveInfinity).Min()));

    /// <summary>Whether a level over some days is an upper bound: half of them or more are, as with the bursts of a day.</summary>
    /// <param name="days">The days.</param>
    public static bool AreBounds(IEnumerable<DayValue> days)
    {
        DayValue[] all = [.. days];
        return all.Length > 0 && 2 * all.Count(d => d.IsUpperBound) >= all.Length;
    }

    /// <summary>Works it out.</summary>
    /// <param name="store">The store.</param>
    /// <param name="ram">The ram.</param>
    /// <param name="figure">The figure.</param>
    /// <param name="span">Of which bursts.</param>
    /// <param name="zone">Where the days begin.</param>
    /// <param name="atOneLevel">Take the supply level's effect out; meant for efficiencies, flows, rate and peaks.</param>
    public static FigureTrend Of(
        ISeasonStore store, string ram, SeasonFigure figure, TimeSpanUtc span, TimeZoneInfo zone, bool atOneLevel = true)
    {
        IReadOnlyList<DayValue> heads = atOneLevel && GoesWithLevel(figure) ? DailySeries.Of(store.Series(ram, SeasonFigure.SupplyHead, span), zone) : [];
        return Of(figure, DailySeries.Of(store.Series(ram, figure, span), zone), heads);
    }

    /// <summary>Works it out from days.</summary>
    /// <param name="figure">The figure.</param>
    /// <param name="measured">Its days.</param>
    /// <param name="heads">Days of the supply head whose effect is taken out of figures that go with it; none to leave it in.</param>
    internal static FigureTrend Of(SeasonFigure figure, IReadOnlyList<DayValue> measured, IReadOnlyList<DayValue> heads)
    {
        heads = GoesWithLevel(figure) ? heads : [];
        var correction = HeadCorrection.Learn(measured, heads);
        IReadOnlyList<DayValue> days = correction?.Apply(measured, heads) ?? measured;
        IReadOnlyList<ChangePoint> changes = ChangePoints.Find(days);
        DayValue[] recent = [.. days.Where(d => changes.Count == 0 || d.X >= changes[^1].At)];
        TrendLine? trend = TheilSen.Fit(recent);
        if (trend is { } plain && SeasonDoubt.Concerns(figure))
        {
            trend = SeasonDoubt.Widen(plain, recent);
        }

        return new FigureTrend
        {
            Figure = figure,
            Measured = measured,
            Days = days,
            Correction = correction,
            Changes = changes,
            Recent = trend,
            RecentFrom = trend is null ? null : recent[0].Day,
            RecentMixesBounds = trend is not null && recent.Any(d => d.IsUpperBound) && !recent.All(d => d.IsUpperBound),
            Months = MonthLevel.Of(days),
        };
    }

    private static bool GoesWithLevel(SeasonFigure figure) => figure is not (SeasonFigure.SupplyHead or SeasonFigure.Battery) && !figure.IsPart();
}
