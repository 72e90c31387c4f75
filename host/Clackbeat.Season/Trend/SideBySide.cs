using Clackbeat.Season.Store;

namespace Clackbeat.Season.Trend;

/// <summary>A figure of two bursts or periods, and how the second differs from the first.</summary>
/// <param name="Figure">The figure.</param>
/// <param name="Before">The first; null where it has none.</param>
/// <param name="After">The second.</param>
public sealed record SideBySide(SeasonFigure Figure, SeasonValue? Before, SeasonValue? After)
{
    // Days on either side from which the effect of the supply level is learnt.
    private const int LearnFromDays = 365;

    /// <summary>Second less first with the ends of its 95 % interval; null where it can't be told.</summary>
    public (double Value, double Low, double High)? Difference { get; init; }

    /// <summary>Supply head that both are brought to [m]; null where they are as measured.</summary>
    public double? LevelM { get; init; }

    /// <summary>True where a bound stands against a figure, so that their difference tells nothing of the ram.</summary>
    public bool MixesBounds => Before is { } before && After is { } after && before.IsUpperBound != after.IsUpperBound;

    /// <summary>Compares all figures of two stretches of time, those left out that neither has.</summary>
    /// <param name="store">The store.</param>
    /// <param name="ram">The ram.</param>
    /// <param name="figures">Which figures.</param>
    /// <param name="first">The first stretch; a burst is a stretch too.</param>
    /// <param name="second">The second.</param>
    /// <param name="zone">Where the days begin.</param>
    public static IReadOnlyList<SideBySide> Of(
        ISeasonStore store, string ram, IEnumerable<SeasonFigure> figures, TimeSpanUtc first, TimeSpanUtc second, TimeZoneInfo zone)
    {
        TimeSpanUtc around = Around(first, second);
        IReadOnlyList<DayValue> heads = DailySeries.Of(store.Series(ram, SeasonFigure.SupplyHead, around), zone);
        return
        [
            .. figures.Select(f => Of(f, store.Series(ram, f, around), f == SeasonFigure.SupplyHead ? [] : heads, first, second, zone))
                .Where(c => c.Before is not null || c.After is not null),
        ];
    }

    private static SideBySide Of(
        SeasonFigure figure, IReadOnlyList<SeasonPoint> series, IReadOnlyList<DayValue> heads, TimeSpanUtc first, TimeSpanUtc second, TimeZoneInfo zone)
    {
        SeasonPoint[] Points(TimeSpanUtc span) => [.. series.Where(p => p.AtUtc >= span.From && p.AtUtc < span.To)];
        (SeasonPoint[] before, SeasonPoint[] after) = (Points(first), Points(second));
        IReadOnlyList<DayValue> Days(SeasonPoint[] points, HeadCorrection? level) =>
            DailySeries.Of(points, zone) is var days && level is not null ? level.Apply(days, heads) : days;
        HeadCorrection? correction = Comparison.Between(DailySeries.Of(before, zone), DailySeries.Of(after, zone)) is null ? null : HeadCorrection.Learn(DailySeries.Of(series, zone), heads);
        return Comparison.Between(Days(before, correction), Days(after, correction)) is { } days
            ? new SideBySide(
                figure, Mean(before)!.Value with { Value = days.Before, IsUpperBound = days.BeforeIsUpperBound },
                Mean(after)!.Value with { Value = days.After, IsUpperBound = days.AfterIsUpperBound })
            {
                Difference = days.MixesBounds ? null : (days.Shift, days.Low, days.High),
                LevelM = correction?.ReferenceHeadM,
            }
            : OfMeans(figure, Mean(before), Mean(after));
    }

    // Errors that both share cancel out, but how much of each is shared isn't known: taken as independent, the ± is the wider one.
    private static SideBySide OfMeans(SeasonFigure figure, SeasonValue? before, SeasonValue? after)
    {
        var pair = new SideBySide(figure, before, after);
        if (pair.MixesBounds || before is not { } b || after is not { } a || b.U is not { } ub || a.U is not { } ua)
        {
            return pair;
        }

        (double shift, double u) = (a.Value - b.Value, Math.Sqrt((ua * ua) + (ub * ub)));
        return pair with { Difference = (shift, shift - u, shift + u) };
    }

    private static SeasonValue? Mean(SeasonPoint[] points)
    {
        if (points.Length == 0)
        {
            return null;
        }

        double[] u = [.. points.Select(p => p.U).OfType<double>()];
        return new SeasonValue(points.Average(p => p.Value), u.Length > 0 ? u.Average() : null) { IsUpperBound = 2 * points.Count(p => p.IsUpperBound) >= points.Length };
    }

    private static TimeSpanUtc Around(TimeSpanUtc first, TimeSpanUtc second)
    {
        DateTimeOffset from = first.From < second.From ? first.From : second.From;
        DateTimeOffset to = first.To > second.To ? first.To : second.To;
        var reach = TimeSpan.FromDays(LearnFromDays);
        return new TimeSpanUtc(from - DateTimeOffset.UnixEpoch > reach ? from - reach : DateTimeOffset.UnixEpoch, DateTimeOffset.MaxValue - to > reach ? to + reach : to);
    }
}
