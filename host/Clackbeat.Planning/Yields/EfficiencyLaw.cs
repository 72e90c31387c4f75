using Clackbeat.Hydraulics;
using Clackbeat.Planning.Wishes;

namespace Clackbeat.Planning.Yields;

/// <summary>
/// D'Aubuisson efficiency q h / (Q H) of a ram by its fall and lift, as a band that follows what was published. Q is all the water
/// drawn, h and H count from the waste valve's outlet.
/// </summary>
/// <remarks>
/// η = 0.669 · min(H, 5 m)^0.15 / (1 + (r/25)^0.75) for a bought ram, r = h/H. The five numbers were chosen on the rows marked
/// <c>choosing</c> of tests/Clackbeat.Planning.Tests/Data/published-cases.csv, by least squares of ln η. An agency's bulletin and a trade
/// pocketbook (up to r = 12, where both know of working rams) had the same weight. They differ by up to 1.3 from each other.
/// A factor of <see cref="HalfFactor"/> either way holds 93 % of those rows.
/// Valid for r of 1.2 to 42 and a fall of 0.5 to 15 m; outside the law goes on without support, and the plan says so.
/// </remarks>
public static class EfficiencyLaw
{
    /// <summary>Highest lift over fall in any published table seen: the bulletin's 125 m from 3 m.</summary>
    public const double HighestRatioSeen = 42;

    /// <summary>Either end of a known kind's band is this factor from its centre: the ends stand as 1.6 to 1.</summary>
    public static readonly double HalfFactor = Math.Sqrt(1.6);

    /// <summary>
    /// A home-made ram against a bought one: geometric mean of 0.33 at r = 5 (RWS.4.D.5's rule, 0.54 of the law) and 0.48 at r = 2
    /// (Fatahi-Alkouhi et al. 2017, 0.70 of the law).
    /// </summary>
    private const double HomeMadeShare = 0.62;

    /// <summary>The most that was published for any ram, at a lift hardly above the fall (Eytelwein 1804, by the formula in handbooks, from memory).</summary>
    private const double Highest = 0.92;

    /// <summary>The band of a kind.</summary>
    /// <param name="kind">How the ram is made.</param>
    /// <param name="fallM">Fall H [m], above 0.</param>
    /// <param name="liftM">Lift h [m], above the fall.</param>
    public static Band Of(RamKind kind, double fallM, double liftM)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(fallM);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(liftM, fallM);
        double centre = Centre(fallM, liftM / fallM);
        Band cast = Around(centre);
        Band homeMade = Around(HomeMadeShare * centre);
        return kind switch
        {
            RamKind.Cast => cast,
            RamKind.HomeMade => homeMade,
            _ => new Band(Math.Min(homeMade.Low, Pocketbook(liftM / fallM)), cast.High),
        };
    }

    private static double Centre(double fallM, double ratio) =>
        0.669 * Math.Pow(Math.Min(fallM, 5), 0.15) / (1 + Math.Pow(ratio / 25, 0.75));

    private static Band Around(double centre)
    {
        double high = Math.Min(centre * HalfFactor, Highest);
        return new Band(high / (HalfFactor * HalfFactor), high);
    }

    // The pocketbook's table, 72 % at 4 to 14 % at 20, is 1.19 - 0.235 √r to a point. It is followed to 20 and no further:
    // it says nothing is delivered above 26, where the bulletin and rams at work do deliver.
    private static double Pocketbook(double ratio) => 1.19 - 0.235 * Math.Sqrt(Math.Min(ratio, 20));
}
