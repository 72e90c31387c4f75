using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.HandTests;

/// <summary>What a test by hand showed.</summary>
public enum TestVerdict
{
    /// <summary>The recording doesn't show the test; the evidence says what was missing.</summary>
    Unclear,

    /// <summary>What the ram delivers arrives at the outlet.</summary>
    AllArrives,

    /// <summary>Less arrives: the main leaks, or the delivery valve lets water back.</summary>
    LessArrives,

    /// <summary>More arrives than the record says: a figure of the site file is wrong.</summary>
    MoreArrives,

    /// <summary>The water stands at the site file's level.</summary>
    LevelRight,

    /// <summary>It stands lower.</summary>
    LevelLow,

    /// <summary>It stands higher, or the sensor reads too high.</summary>
    LevelHigh,

    /// <summary>What was done has mended it.</summary>
    Mended,

    /// <summary>What was done has changed nothing.</summary>
    AsBefore,

    /// <summary>Some beats are long at a shorter stroke too.</summary>
    StillUneven,

    /// <summary>The beats are even at a shorter stroke.</summary>
    Even,
}

/// <summary>A reading of a test by hand.</summary>
/// <param name="Verdict">What it showed.</param>
/// <param name="Evidence">What was seen, or what was missing.</param>
public sealed record TestResult(TestVerdict Verdict, IReadOnlyList<Fact> Evidence);
