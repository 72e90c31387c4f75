using System.Globalization;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>
/// How far a fault has gone, given that it is there: an estimate of the severity, 0 to 1, as a weighted sum of the square roots of how
/// far the features lie from where they lay when the ram was well. Severity 1 is as bad as the virtual ram makes it (docs/virtual-ram.md).
/// </summary>
internal sealed class Stage(IReadOnlyDictionary<string, StageWeights> weights)
{
    /// <summary>A fault estimated under this is called beginning; of those called so, most are under 0.4 in truth (docs/diagnosis-results.md).</summary>
    public const double Beginning = 0.45;

    // Further off than this a feature says no more.
    private const double Farthest = 100;

    /// <summary>Reads the data file of a model.</summary>
    public static Stage Read(string name) => new(DiagnosisData.Rows($"{name}-stages.csv", row => (
        Condition: row["condition"].ToString(),
        Weights: new StageWeights(
            Number(row["constant"].ToString()), [.. row["weights"].ToString().Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Number)])))
        .ToDictionary(r => r.Condition, r => r.Weights, StringComparer.Ordinal));

    /// <summary>Writes the data file of a model.</summary>
    public void Write(string folder, string name) => File.WriteAllLines(
        Path.Combine(folder, $"{name}-stages.csv"),
        ["condition,constant,weights", .. weights.Select(w => $"{w.Key},{Text(w.Value.Constant)},{string.Join(' ', w.Value.Weights.Select(Text))}")]);

    /// <summary>What the sum runs over.</summary>
    /// <param name="columns">How far each feature lies above and below a well ram's, in standard deviations; see <see cref="FeatureTree.Columns"/>.</param>
    public static double[] Terms(IReadOnlyList<double> columns) => [.. columns.Select(c => Math.Sqrt(Math.Min(c, Farthest)))];

    /// <summary>Estimated severity of a condition.</summary>
    /// <param name="condition">Condition code.</param>
    /// <param name="columns">How far each feature lies above and below a well ram's, in standard deviations.</param>
    public double Of(string condition, IReadOnlyList<double> columns) =>
        weights[condition].Constant + Terms(columns).Zip(weights[condition].Weights, (t, w) => t * w).Sum();

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static string Text(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);
}

/// <summary>The estimate for one condition.</summary>
/// <param name="Constant">Severity with all features where they were.</param>
/// <param name="Weights">One for each column.</param>
internal sealed record StageWeights(double Constant, IReadOnlyList<double> Weights);
