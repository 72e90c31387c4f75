using Clackbeat.Season.Store;

namespace Clackbeat.Season.Trend;

/// <summary>What a season store tells of one ram, gathered once.</summary>
/// <param name="Ram">The ram.</param>
/// <param name="Trends">The figures that have days.</param>
/// <param name="Marks">The marks, each with the efficiency after against before; null for too few days.</param>
public sealed record RamSeason(string Ram, IReadOnlyList<FigureTrend> Trends, IReadOnlyList<(MaintenanceMark Mark, Comparison? Efficiency)> Marks)
{
    /// <summary>The figures that a keeper follows through a season, in the order of tables.</summary>
    public static IReadOnlyList<SeasonFigure> Followed { get; } =
    [
        SeasonFigure.Rate, SeasonFigure.Irregularity, SeasonFigure.PeakTrue, SeasonFigure.DeliveryPressure, SeasonFigure.Delivered,
        SeasonFigure.Efficiency, SeasonFigure.SupplyHead, SeasonFigure.RatingUse,
    ];

    /// <summary>Parts of the ram by its twin, shown after those where a twin was kept.</summary>
    private static readonly SeasonFigure[] Parts =
    [
        SeasonFigure.TwinOpening, SeasonFigure.TwinPlugHead, SeasonFigure.TwinLosses, SeasonFigure.TwinVesselHead, SeasonFigure.TwinLateness,
    ];

    /// <summary>First day of any figure.</summary>
    public DateOnly From => Trends.Min(t => t.Measured[0].Day);

    /// <summary>Last day.</summary>
    public DateOnly To => Trends.Max(t => t.Measured[^1].Day);

    /// <summary>Gathers it; null where the store holds no figure of the ram in that time.</summary>
    /// <param name="store">The store.</param>
    /// <param name="ram">The ram.</param>
    /// <param name="span">Of which bursts and marks.</param>
    /// <param name="zone">Where the days begin.</param>
    public static RamSeason? Of(ISeasonStore store, string ram, TimeSpanUtc span, TimeZoneInfo zone)
    {
        var days = Followed.Concat(Parts).ToDictionary(f => f, f => DailySeries.Of(store.Series(ram, f, span), zone));
        FigureTrend[] trends = [.. days.Where(d => d.Value.Count > 0).Select(d => FigureTrend.Of(d.Key, d.Value, days[SeasonFigure.SupplyHead]))];
        if (trends.Length == 0)
        {
            return null;
        }

        IReadOnlyList<DayValue> efficiency = trends.FirstOrDefault(t => t.Figure == SeasonFigure.Efficiency)?.Days ?? [];
        MaintenanceMark[] marks = [.. store.Marks(ram).Where(m => m.AtUtc >= span.From && m.AtUtc < span.To)];
        DateOnly[] dated = [.. marks.Select(m => DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(m.AtUtc, zone).DateTime))];
        return new RamSeason(ram, trends, [.. marks.Zip(dated, (mark, day) => (mark, Comparison.Around(efficiency, day, dated)))]);
    }
}
