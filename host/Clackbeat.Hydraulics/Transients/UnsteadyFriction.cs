namespace Clackbeat.Hydraulics.Transients;

/// <summary>
/// Friction beyond the steady one while a flow changes, by acceleration: the slope of the energy line gains
/// (k/g)(∂V/∂t + a sgn(V)|∂V/∂x|) (B. Brunone et al., 1991, with the sign of J. Vítkovský et al., 2000; A. Bergant,
/// A. R. Simpson and J. Vítkovský, J. Hydraul. Res. 39 (2001) 249).
/// </summary>
/// <remarks>
/// k = √C*/2 with the shear decay coefficient C* of A. E. Vardy and J. M. B. Brown (J. Hydraul. Res. 33 (1995) 435, and
/// 1996). It was derived for smooth pipes and small changes of Re; for fully rough ones Vardy and Brown (J. Sound Vib. 270
/// (2004) 233) give another, which is not used here. While a column speeds up evenly it acts as k of extra inertia.
/// </remarks>
public static class UnsteadyFriction
{
    /// <summary>C* of laminar flow.</summary>
    public const double LaminarShearDecay = 0.00476;

    // Between these the flow is unsettled; the two figures are joined by a straight line in ln Re, so that no solver meets a step.
    private const double LaminarEnd = 2000;
    private const double TurbulentStart = 4000;

    /// <summary>
    /// Shear decay coefficient C* of Vardy and Brown: 0.00476 in laminar flow, 7.41/Re^κ with κ = log10(14.3/Re^0.05) in
    /// smooth turbulent flow; given for Re up to 1e8.
    /// </summary>
    /// <param name="reynolds">Reynolds number, 0 or more.</param>
    public static double ShearDecay(double reynolds)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(reynolds);
        if (reynolds <= LaminarEnd)
        {
            return LaminarShearDecay;
        }

        if (reynolds >= TurbulentStart)
        {
            return Turbulent(reynolds);
        }

        double share = Math.Log(reynolds / LaminarEnd) / Math.Log(TurbulentStart / LaminarEnd);
        return LaminarShearDecay + share * (Turbulent(TurbulentStart) - LaminarShearDecay);
    }

    /// <summary>Brunone's coefficient k = √C*/2: 0.0345 in laminar flow, 0.0074 at Re = 1e5.</summary>
    /// <param name="reynolds">Reynolds number, 0 or more.</param>
    public static double Coefficient(double reynolds) => Math.Sqrt(ShearDecay(reynolds)) / 2;

    private static double Turbulent(double reynolds) =>
        7.41 / Math.Pow(reynolds, Math.Log10(14.3 / Math.Pow(reynolds, 0.05)));
}
