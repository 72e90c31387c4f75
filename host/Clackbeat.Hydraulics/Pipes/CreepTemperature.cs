namespace Clackbeat.Hydraulics.Pipes;

/// <summary>How much stiffer a plastic wall is when cold, from Data/creep-temperature.csv; straight lines between its rows.</summary>
internal static class CreepTemperature
{
    private static readonly Dictionary<string, (double Celsius, double Ratio)[]> Table = DataTable
        .Read("creep-temperature.csv", row => (
            Family: row["family"].ToString(),
            Celsius: row["celsius"].Parse<double>(),
            Ratio: row["stiffness_ratio"].Parse<double>()))
        .GroupBy(r => r.Family)
        .ToDictionary(g => g.Key, g => g.Select(r => (r.Celsius, r.Ratio)).OrderBy(r => r.Celsius).ToArray());

    /// <summary>Modulus over that at 23 °C.</summary>
    internal static double StiffnessRatio(PipeMaterial material, double celsius)
    {
        (double Celsius, double Ratio)[] rows = Table[material is PipeMaterial.Pe100 or PipeMaterial.Pe80 or PipeMaterial.Pe4710 ? "PE" : "PVC"];
        int upper = Math.Max(1, Array.FindIndex(rows, r => r.Celsius >= celsius));
        ((double Celsius, double Ratio) low, (double Celsius, double Ratio) high) = (rows[upper - 1], rows[upper]);
        return low.Ratio + (high.Ratio - low.Ratio) * (celsius - low.Celsius) / (high.Celsius - low.Celsius);
    }
}
