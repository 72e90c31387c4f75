using System.Text.Json;
using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.HandTests;

/// <summary>What the shut ram showed.</summary>
public enum ShutVerdict
{
    /// <summary>The recording doesn't show the test; the evidence says what was missing.</summary>
    Unclear,

    /// <summary>The trapped water kept its pressure.</summary>
    BothHold,

    /// <summary>It came to rest over the supply's level: the vessel feeds it.</summary>
    DeliveryValveLeaks,

    /// <summary>It fell.</summary>
    WasteValveLeaks,
}

/// <summary>Verdicts as they are written: lower case with hyphens.</summary>
public static class VerdictCodes
{
    /// <summary>The code of a verdict.</summary>
    /// <param name="verdict">The verdict.</param>
    public static string Code(this ShutVerdict verdict) => JsonNamingPolicy.KebabCaseLower.ConvertName(verdict.ToString());

    /// <summary>The code of a verdict.</summary>
    /// <param name="verdict">The verdict.</param>
    public static string Code(this TestVerdict verdict) => JsonNamingPolicy.KebabCaseLower.ConvertName(verdict.ToString());
}

/// <summary>A reading of the test with gate and waste valve shut.</summary>
/// <param name="Verdict">What it showed.</param>
/// <param name="Evidence">What was seen, or what was missing.</param>
public sealed record ShutResult(ShutVerdict Verdict, IReadOnlyList<Fact> Evidence)
{
    /// <summary>Level with the gate still open [Pa gauge].</summary>
    public double? StaticPa { get; init; }

    /// <summary>Rate of change as the level leaves that [Pa/s].</summary>
    public double? SlopePaPerS { get; init; }

    /// <summary>Level before the waste valve was let go [Pa gauge].</summary>
    public double? EndPa { get; init; }

    /// <summary>Least flow that leaks, where the gate stands at the intake and the pipe's give is known [m³/s].</summary>
    public double? LeastLeakM3PerS { get; init; }
}
