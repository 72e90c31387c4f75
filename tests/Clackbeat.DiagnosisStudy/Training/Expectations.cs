using System.Globalization;
using Clackbeat.Signal.Diagnosis;
using nietras.SeparatedValues;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>
/// What physics leads to expect: which feature may speak for which condition, on which side. Against a condition any feature
/// may speak. So the virtual rams can only decide how much a feature counts, never that it counts the wrong way, and no feature
/// speaks for a well ram: that verdict is earned by the absence of change.
/// </summary>
internal static class Expectations
{
    private static readonly Dictionary<string, HashSet<string>> For = Rows("expected-features.csv", row =>
        (row["condition"].ToString(), row["features"].ToString().Split(' ').ToHashSet(StringComparer.Ordinal)));

    private static readonly Dictionary<string, double> Floors = Rows("floors.csv", row =>
        (row["feature"].ToString(), double.Parse(row["floor"].Span, CultureInfo.InvariantCulture)));

    /// <summary>The features.</summary>
    public static IReadOnlyList<Feature> Used { get; } = Enum.GetValues<Feature>();

    /// <summary>May a rise (or fall) of a feature speak for a condition?</summary>
    public static bool MaySpeakFor(string condition, Feature feature, bool rise) => For[condition].Contains((rise ? "+" : "-") + feature);

    /// <summary>Least standard deviation of a feature: what sampling and rounding alone can do to it.</summary>
    public static double FloorOf(Feature feature) => Floors.GetValueOrDefault(feature.ToString(), 1e-6);

    private static Dictionary<string, T> Rows<T>(string file, SepReader.RowFunc<(string Key, T Value)> row)
    {
        using SepReader reader = Sep.New(',').Reader().FromFile(Path.Combine(AppContext.BaseDirectory, "Data", file));
        return reader.Enumerate(row).ToDictionary(r => r.Key, r => r.Value, StringComparer.Ordinal);
    }
}
