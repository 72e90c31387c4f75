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

    /// <summary>Level of each calendar month.</summary>
    public required IReadOnlyList<MonthLevel> Months { get; init; }

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
        IReadOnlyList<DayValue> measured = DailySeries.Of(store.Series(ram, figure, span), zone);
        IReadOnlyList<DayValue> heads = atOneLevel && figure != SeasonFigure.SupplyHead
            ? DailySeries.Of(store.Series(ram, SeasonFigure.SupplyHead, span), zone)
            : [];
        HeadCorrection? correction = HeadCorrection.Learn(measured, heads);
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
            Months = MonthLevel.Of(days),
        };
    }
}
