using System.Globalization;
using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.Signal.HandTests;

/// <summary>
/// How often rams with a condition give each verdict of a test, counted on virtual rams of the choosing set (study command
/// <c>likelihoods</c>). A verdict that n of N rams gave has the probability (n + ½)/(N + k/2), k being the number of the test's verdicts, so that what was
/// never seen is not held impossible (R. E. Krichevsky, V. K. Trofimov, IEEE Transactions on Information Theory 27 (1981) 199).
/// </summary>
public static class TestLikelihoods
{
    // A test that is right less often than it is wrong about two causes is not worth a keeper's walk.
    private const double TellsMoreOftenThanNot = 0.5;

    private static readonly Dictionary<(string Test, string Condition), Dictionary<string, int>> Counts = Read();

    private static readonly Dictionary<string, string[]> Verdicts = Counts.GroupBy(c => c.Key.Test).ToDictionary(
        g => g.Key, g => g.SelectMany(c => c.Value.Keys).Distinct().ToArray(), StringComparer.Ordinal);

    /// <summary>Probability of a verdict where a condition holds.</summary>
    /// <param name="test">Code of the test.</param>
    /// <param name="condition">Condition code.</param>
    /// <param name="verdict">Code of the verdict; "unclear" is none.</param>
    /// <returns>The same for all verdicts where the study has no such rams, or knows no such test.</returns>
    public static double Of(string test, string condition, string verdict)
    {
        int kinds = Verdicts.TryGetValue(test, out string[]? known) ? known.Length : 1;
        return Counts.TryGetValue((test, condition), out Dictionary<string, int>? counts)
            ? (counts.GetValueOrDefault(verdict) + 0.5) / (counts.Values.Sum() + (0.5 * kinds))
            : 1.0 / kinds;
    }

    /// <summary>Whether a test tells two conditions apart more often than not: half the sum of the differences of their verdicts' probabilities.</summary>
    /// <param name="test">Code of the test.</param>
    /// <param name="one">A condition.</param>
    /// <param name="other">Another one.</param>
    public static bool Tells(string test, string one, string other) =>
        Verdicts.TryGetValue(test, out string[]? known)
        && 0.5 * known.Sum(v => Math.Abs(Of(test, one, v) - Of(test, other, v))) > TellsMoreOftenThanNot;

    private static Dictionary<(string Test, string Condition), Dictionary<string, int>> Read() => DiagnosisData
        .Rows("hand-tests.csv", row => (
            Test: row["test"].ToString(), Condition: row["condition"].ToString(), Verdict: row["verdict"].ToString(),
            Count: int.Parse(row["count"].ToString(), CultureInfo.InvariantCulture)))
        .GroupBy(r => (r.Test, r.Condition))
        .ToDictionary(g => g.Key, g => g.ToDictionary(r => r.Verdict, r => r.Count, StringComparer.Ordinal));
}
