using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Hydraulics.Pipes;

/// <summary>Steady wall friction, h_f = f (L/D) V²/(2g) with Darcy's factor f (four times Fanning's).</summary>
public static class Friction
{
    private const double LaminarEnd = 2000;
    private const double TurbulentStart = 4000;

    /// <summary>Reynolds number V D / ν; 0 for water at rest.</summary>
    /// <param name="velocityMPerS">Mean velocity, either sign [m/s].</param>
    /// <param name="boreM">Inside diameter [m].</param>
    /// <param name="kinematicViscosityM2PerS">Kinematic viscosity [m²/s].</param>
    public static double Reynolds(double velocityMPerS, double boreM, double kinematicViscosityM2PerS) =>
        Math.Abs(velocityMPerS) * boreM / kinematicViscosityM2PerS;

    /// <summary>
    /// Darcy factor for any Reynolds number above 0: 64/Re to 2000, <see cref="Haaland"/> from 4000, and between them a
    /// straight line, so that no solver meets a step. The line is a convenience: real flow is unsettled there.
    /// </summary>
    /// <param name="reynolds">Reynolds number, above 0.</param>
    /// <param name="relativeRoughness">Absolute roughness over bore, 0 to 0.05.</param>
    public static double DarcyFactor(double reynolds, double relativeRoughness)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(reynolds);
        if (reynolds <= LaminarEnd)
        {
            return 64 / reynolds;
        }

        if (reynolds >= TurbulentStart)
        {
            return Haaland(reynolds, relativeRoughness);
        }

        var share = (reynolds - LaminarEnd) / (TurbulentStart - LaminarEnd);
        return (1 - share) * 64 / LaminarEnd + share * Haaland(TurbulentStart, relativeRoughness);
    }

    /// <summary>
    /// S. E. Haaland, J. Fluids Eng. 105 (1983) 89, doi 10.1115/1.3240948: 1/√f = −1.8 log10((ε/D/3.7)^1.11 + 6.9/Re);
    /// within 1.5 % of Colebrook for Re 4000 to 1e8, ε/D to 0.05.
    /// </summary>
    /// <param name="reynolds">Reynolds number, 4000 or more.</param>
    /// <param name="relativeRoughness">Absolute roughness over bore.</param>
    public static double Haaland(double reynolds, double relativeRoughness)
    {
        var root = -1.8 * Math.Log10(Math.Pow(relativeRoughness / 3.7, 1.11) + 6.9 / reynolds);
        return 1 / (root * root);
    }

    /// <summary>Head lost along a pipe [m], with the sign of the velocity.</summary>
    /// <param name="darcyFactor">Darcy's factor.</param>
    /// <param name="lengthM">Length [m].</param>
    /// <param name="boreM">Inside diameter [m].</param>
    /// <param name="velocityMPerS">Mean velocity [m/s].</param>
    public static double HeadLossM(double darcyFactor, double lengthM, double boreM, double velocityMPerS) =>
        darcyFactor * lengthM / boreM * velocityMPerS * Math.Abs(velocityMPerS) / (2 * Constants.GravityMPerS2);

    /// <summary>
    /// Steady velocity under a head [m/s]: H = (f L/D + K) V²/(2g), solved with f at its own Reynolds number.
    /// </summary>
    /// <param name="headM">Head H [m], above 0.</param>
    /// <param name="lengthM">Length [m].</param>
    /// <param name="boreM">Inside diameter [m].</param>
    /// <param name="roughnessM">Absolute roughness [m].</param>
    /// <param name="lossCoefficient">K: entrance, fittings, valve and the velocity head, above 0.</param>
    /// <param name="water">The water.</param>
    public static double SteadyVelocityMPerS(
        double headM, double lengthM, double boreM, double roughnessM, double lossCoefficient, WaterProperties water)
    {
        var factor = 0.02;
        var velocity = 0.0;
        // The factor changes slowly with velocity: each round gains more than a decimal place.
        for (var round = 0; round < 50; round++)
        {
            var next = Math.Sqrt(2 * Constants.GravityMPerS2 * headM / (factor * lengthM / boreM + lossCoefficient));
            if (Math.Abs(next - velocity) < 1e-12 * next)
            {
                return next;
            }

            velocity = next;
            factor = DarcyFactor(
                Reynolds(velocity, boreM, water.KinematicViscosityM2PerS), roughnessM / boreM);
        }

        return velocity;
    }
}
