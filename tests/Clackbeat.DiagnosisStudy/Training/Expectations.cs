using System.Globalization;
using Clackbeat.Signal.Diagnosis;
using nietras.SeparatedValues;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>
/// What physics leads to expect: which sign may speak for which condition, on which side. Against a condition any sign
/// may speak. So the virtual rams can only decide how much a sign counts, never that it counts the wrong way, and no sign
/// speaks for a well ram: that verdict is earned by the absence of change.
/// </summary>
internal static class Expectations
{
    private static readonly Dictionary<string, HashSet<string>> For = Rows("expected-signs.csv", row =>
        (row["condition"].ToString(), row["signs"].ToString().Split(' ').ToHashSet(StringComparer.Ordinal)));

    private static readonly Dictionary<string, double> Floors = Rows("floors.csv", row =>
        (row["sign"].ToString(), double.Parse(row["floor"].Span, CultureInfo.InvariantCulture)));

    /// <summary>The signs.</summary>
    public static IReadOnlyList<Sign> Used { get; } = Enum.GetValues<Sign>();

    /// <summary>May a rise (or fall) of a sign speak for a condition?</summary>
    public static bool MaySpeakFor(string condition, Sign sign, bool rise) => For[condition].Contains((rise ? "+" : "-") + sign);

    /// <summary>Least scatter of a sign: what sampling and rounding alone can do to it.</summary>
    public static double FloorOf(Sign sign) => Floors.GetValueOrDefault(sign.ToString(), 1e-6);

    private static Dictionary<string, T> Rows<T>(string file, SepReader.RowFunc<(string Key, T Value)> row)
    {
        using SepReader reader = Sep.New(',').Reader().FromFile(Path.Combine(AppContext.BaseDirectory, "Data", file));
        return reader.Enumerate(row).ToDictionary(r => r.Key, r => r.Value, StringComparer.Ordinal);
    }
}
