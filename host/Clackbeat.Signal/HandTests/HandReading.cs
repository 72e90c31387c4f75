using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.HandTests;

/// <summary>What a test by hand showed, whichever it was.</summary>
/// <param name="Test">Code of the test.</param>
/// <param name="Verdict">Code of the verdict.</param>
/// <param name="Evidence">What was seen, or what was missing.</param>
public sealed record HandReading(string Test, string Verdict, IReadOnlyList<Fact> Evidence)
{
    /// <summary>Code of the verdict that a recording doesn't show its test.</summary>
    public const string Unclear = "unclear";

    /// <summary>Figures of the reading, in the units of their names; null where one could not be told.</summary>
    public IReadOnlyList<(string Name, double? Value)> Figures { get; init; } = [];

    /// <summary>The recording doesn't show the test.</summary>
    public bool IsUnclear => Verdict == Unclear;

    /// <summary>What it showed, in words.</summary>
    public Fact Said => new("tests.verdict." + Verdict, []);

    /// <summary>A reading of the test with gate and waste valve shut.</summary>
    /// <param name="result">The reading.</param>
    public static HandReading Of(ShutResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return new HandReading(HandTest.Shut, result.Verdict.Code(), result.Evidence)
        {
            Figures =
            [
                ("static_kpa", result.StaticPa / 1000), ("slope_kpa_per_s", result.SlopePaPerS / 1000), ("end_kpa", result.EndPa / 1000),
                ("leak_at_least_l_per_min", result.LeastLeakM3PerS * 60_000),
            ],
        };
    }

    /// <summary>A reading of another test.</summary>
    /// <param name="test">Code of the test.</param>
    /// <param name="result">The reading.</param>
    public static HandReading Of(string test, TestResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return new HandReading(test, result.Verdict.Code(), result.Evidence);
    }
}
