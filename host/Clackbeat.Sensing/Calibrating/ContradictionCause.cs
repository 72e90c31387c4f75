using Clackbeat.Hydraulics.Water;
using Clackbeat.Sensing.Conversion;

namespace Clackbeat.Sensing.Calibrating;

/// <summary>What may make a calibration contradict the data sheets.</summary>
public enum ContradictionCause
{
    /// <summary>Counts fall while the pressure rises: references or counts are exchanged.</summary>
    FallingCounts,

    /// <summary>Bar written for psi, or psi for bar.</summary>
    BarAndPsi,

    /// <summary>Metres written for feet, or feet for metres.</summary>
    MetresAndFeet,

    /// <summary>A power of ten: cm for m, kPa for bar.</summary>
    PowerOfTen,

    /// <summary>Off by an atmosphere: an absolute sensor or gauge, or a range that begins at −1 bar in only one of two places.</summary>
    Atmosphere,

    /// <summary>Divider, shunt or range are not those of the site file.</summary>
    DividerOrRange,
}

/// <summary>Tells likely causes by the size of what is off.</summary>
internal static class ContradictionCauses
{
    private static readonly double PsiPerBar = 1e5 / Constants.PsiPa;
    private const double FeetPerMetre = 3.28084;

    // Slopes of low columns are rough: within a tenth a factor still is recognised, and the factors lie farther apart.
    private const double Near = 0.1;

    // Air at 2500 m is a quarter less than at the sea.
    private const double AtmosphereVaries = 0.25;

    /// <summary>The causes, likeliest first.</summary>
    /// <param name="slope">True rise over the data sheets' rise; null where it can't be told.</param>
    /// <param name="point">The worst point, or the lower one.</param>
    /// <param name="path">The chain by its data sheets.</param>
    public static IReadOnlyList<ContradictionCause> Of(double? slope, CalibrationPoint point, SignalPath path)
    {
        List<ContradictionCause> causes = [];
        if (slope is <= 0)
        {
            return [ContradictionCause.FallingCounts];
        }

        double factor = slope ?? 1;
        if (IsNear(factor, PsiPerBar))
        {
            causes.Add(ContradictionCause.BarAndPsi);
        }

        if (IsNear(factor, FeetPerMetre))
        {
            causes.Add(ContradictionCause.MetresAndFeet);
        }

        if (new[] { 10.0, 100, 1000 }.Any(ten => IsNear(factor, ten)))
        {
            causes.Add(ContradictionCause.PowerOfTen);
        }

        if (IsAtmosphere(point.PressurePa - path.PressurePaAt(point.Counts, point.SupplyCounts)))
        {
            causes.Add(ContradictionCause.Atmosphere);
        }

        if (slope is null || Math.Abs(factor - 1) > Near || causes.Count == 0)
        {
            causes.Add(ContradictionCause.DividerOrRange);
        }

        return causes;
    }

    /// <summary>Whether a difference of pressure is that of an atmosphere, up to 2500 m above the sea.</summary>
    public static bool IsAtmosphere(double apartPa) =>
        Math.Abs((Math.Abs(apartPa) / Constants.StandardAtmospherePa) - 1) < AtmosphereVaries;

    private static bool IsNear(double factor, double known) =>
        Math.Abs((factor / known) - 1) < Near || Math.Abs((factor * known) - 1) < Near;
}
