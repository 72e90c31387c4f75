using Clackbeat.Season.Store;

namespace Clackbeat.Season.Export;

/// <summary>The columns of the two tables: what the store holds, SI, gauge pressures, ± expanded (k = 2) under the name with <c>_u</c>.</summary>
internal static class ParquetColumns
{
    private const string Burst = "burst_start_utc";
    private const string Hash = "burst_hash";

    /// <summary>A row a burst.</summary>
    public static IReadOnlyList<ParquetColumn> OfBursts(IReadOnlyList<SeasonBurst> bursts) =>
    [
        ParquetColumn.Instants(Burst, bursts.Select(b => b.StartUtc)),
        ParquetColumn.Words(Hash, bursts.Select(b => HashOf(b))),
        ParquetColumn.Words("source", bursts.Select(b => b.Source)),
        ParquetColumn.Numbers("duration_s", "s", bursts.Select(b => (double?)b.DurationS)),
        ParquetColumn.Words("state", bursts.Select(b => StoredState.Word(b.State))),
        ParquetColumn.Counts("beats", bursts.Select(b => b.Beats.Count)),
        ParquetColumn.Words("completeness", bursts.Select(b => b.Completeness)),
        ParquetColumn.Words("condition", bursts.Select(b => Likeliest(b).Key ?? "")),
        ParquetColumn.Numbers("condition_probability", "1", bursts.Select(b => Likeliest(b).Key is null ? (double?)null : Likeliest(b).Value)),
        .. Enum.GetValues<SeasonFigure>().SelectMany(figure => Figure(bursts, figure)),
    ];

    /// <summary>A row a beat.</summary>
    public static IReadOnlyList<ParquetColumn> OfBeats(IReadOnlyList<(SeasonBurst Burst, int Number, SeasonBeat Beat)> beats)
    {
        ParquetColumn Column(string name, string unit, Func<SeasonBeat, double?> value) =>
            ParquetColumn.Numbers(name, unit, beats.Select(b => value(b.Beat)));

        return
        [
            ParquetColumn.Instants(Burst, beats.Select(b => b.Burst.StartUtc)),
            ParquetColumn.Words(Hash, beats.Select(b => HashOf(b.Burst))),
            ParquetColumn.Counts("beat", beats.Select(b => b.Number + 1)),
            Column("closure_s", "s since the burst's start", b => b.ClosureS),
            Column("interval_s", "s", b => b.IntervalS),
            Column("peak_pa", "Pa", b => b.PeakPa),
            Column("delivery_pa", "Pa", b => b.DeliveryPa),
            Column("suction_pa", "Pa", b => b.SuctionPa),
            Column("closing_velocity_m_per_s", "m/s", b => b.Flow?.ClosingVelocityMPerS),
            Column("delivered_m3", "m³", b => b.Flow?.DeliveredM3),
            Column("waste_m3", "m³", b => b.Flow?.WasteM3),
        ];
    }

    private static IEnumerable<ParquetColumn> Figure(IReadOnlyList<SeasonBurst> bursts, SeasonFigure figure)
    {
        string name = figure.Code().Replace('-', '_');
        string unit = figure.Unit();
        SeasonValue? Of(SeasonBurst burst) => burst.Figures.TryGetValue(figure, out SeasonValue value) ? value : null;
        yield return ParquetColumn.Numbers(name, unit, bursts.Select(b => Of(b)?.Value));
        yield return ParquetColumn.Numbers(name + "_u", unit, bursts.Select(b => Of(b)?.U));
        if (CanBeBound(figure))
        {
            yield return ParquetColumn.Words(name + "_bound", bursts.Select(b => StoredBound.Word(Of(b) is { IsUpperBound: true })));
        }
    }

    /// <summary>Figures that hang on the delivered flow.</summary>
    private static bool CanBeBound(SeasonFigure figure) => figure is SeasonFigure.Delivered or SeasonFigure.Drawn
        or SeasonFigure.Efficiency or SeasonFigure.Rankine or SeasonFigure.DriveSide;

    private static KeyValuePair<string, double> Likeliest(SeasonBurst burst) =>
        burst.Conditions.OrderByDescending(c => c.Value).ThenBy(c => c.Key, StringComparer.Ordinal).FirstOrDefault();

    private static string HashOf(SeasonBurst burst) => Convert.ToHexStringLower(burst.SourceHash);
}
