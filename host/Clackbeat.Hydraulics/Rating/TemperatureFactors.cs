using Clackbeat.Hydraulics.Pipes;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>Factor on the rating for a warm wall by one source.</summary>
/// <param name="Factor">Factor, 1 or less.</param>
/// <param name="Basis">Short name of the source.</param>
/// <param name="Source">Source in full.</param>
public sealed record TemperatureFactor(double Factor, string Basis, string Source);

/// <summary>Temperature factors, Data/temperature.csv.</summary>
public static class TemperatureFactors
{
    private static readonly ILookup<(PipeMaterial Material, string Basis), Point> Table = DataTable.Read(
        "temperature.csv",
        row => new Point(
            Enum.Parse<PipeMaterial>(row["material"].Span),
            row["basis"].ToString(),
            Celsius(row["temperature"].Parse<double>(), row["unit"].ToString()),
            row["factor"].Parse<double>(),
            row["source"].ToString())).ToLookup(p => (p.Material, p.Basis));

    /// <summary>
    /// What each source gives, the lowest first; straight lines between its points, 1 below the first. A source that ends
    /// below the temperature gives nothing: beyond its table a pipe must not be used on its word.
    /// </summary>
    /// <param name="material">Material.</param>
    /// <param name="temperatureC">Temperature of the wall [°C].</param>
    public static IReadOnlyList<TemperatureFactor> At(PipeMaterial material, double temperatureC) =>
        [.. Table.Where(g => g.Key.Material == material)
            .Select(g => Interpolate([.. g.OrderBy(p => p.TemperatureC)], temperatureC))
            .OfType<TemperatureFactor>()
            .OrderBy(f => f.Factor)];

    private static TemperatureFactor? Interpolate(List<Point> points, double temperatureC)
    {
        int upper = points.FindIndex(p => p.TemperatureC >= temperatureC - 1e-9);
        if (upper < 0)
        {
            return null;
        }

        Point high = points[upper];
        if (upper == 0)
        {
            return new TemperatureFactor(high.Factor, high.Basis, high.Source);
        }

        Point low = points[upper - 1];
        double share = (temperatureC - low.TemperatureC) / (high.TemperatureC - low.TemperatureC);
        return new TemperatureFactor(low.Factor + share * (high.Factor - low.Factor), high.Basis, high.Source);
    }

    private static double Celsius(double value, string unit) => unit == "F" ? (value - 32) / 1.8 : value;

    private sealed record Point(PipeMaterial Material, string Basis, double TemperatureC, double Factor, string Source);
}
