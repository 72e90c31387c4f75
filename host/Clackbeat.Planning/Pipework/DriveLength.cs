using Clackbeat.Hydraulics;

namespace Clackbeat.Planning.Pipework;

/// <summary>What settled a drive pipe's length.</summary>
public enum LengthRule
{
    /// <summary>Six times the fall, and the other rules agree.</summary>
    Fall,

    /// <summary>The least or most of 150 to 1000 bores.</summary>
    Bores,

    /// <summary>What the ground allows.</summary>
    Ground,
}

/// <summary>A drive pipe's length and why.</summary>
/// <param name="LengthM">Length [m].</param>
/// <param name="Rule">What settled it.</param>
/// <param name="UsualM">What the rules allow [m].</param>
public readonly record struct DriveLength(double LengthM, LengthRule Rule, Band UsualM)
{
    /// <summary>Lengths over the fall in use: 4 to 7 (agencies' manuals, from memory); the middle is taken.</summary>
    public const double UsualReach = 6;

    // J. Calvert's limits for stable working, 150 < L/D < 1000 (as quoted by S. B. Watt 1975 and others; from memory).
    private const double LeastBores = 150;
    private const double MostBores = 1000;

    /// <summary>Chooses a length.</summary>
    /// <param name="fallM">Fall [m].</param>
    /// <param name="boreM">Bore [m].</param>
    /// <param name="shortestM">The ground's least, if any [m]; never below the fall itself.</param>
    /// <param name="longestM">The ground's most, if any [m].</param>
    public static DriveLength Choose(double fallM, double boreM, double? shortestM, double? longestM)
    {
        var usual = new Band(Math.Max(LeastBores * boreM, fallM), Math.Max(MostBores * boreM, fallM));
        double wanted = UsualReach * fallM;
        double byBores = Math.Clamp(wanted, usual.Low, usual.High);
        double least = Math.Max(shortestM ?? 0, fallM);
        double length = Math.Clamp(byBores, least, Math.Max(longestM ?? double.PositiveInfinity, least));
        LengthRule rule = length != byBores ? LengthRule.Ground : byBores != wanted ? LengthRule.Bores : LengthRule.Fall;
        return new DriveLength(Math.Round(length, 1), rule, usual);
    }
}
