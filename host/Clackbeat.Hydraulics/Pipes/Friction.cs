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

        double share = (reynolds - LaminarEnd) / (TurbulentStart - LaminarEnd);
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
        double root = -1.8 * Math.Log10(Math.Pow(relativeRoughness / 3.7, 1.11) + 6.9 / reynolds);
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
        double headM, double lengthM, double boreM, double roughnessM, double lossCoefficient, WaterProperties water) =>
        SteadyVelocityMPerS(
            headM, new SeriesPipe([new PipeReach(lengthM, boreM, 1) { RoughnessM = roughnessM }]), 0, lossCoefficient, water);

    /// <summary>Steady velocity under a head in the last of several reaches in a row [m/s]; losses of the joints are left out.</summary>
    /// <param name="headM">Head H [m], above 0.</param>
    /// <param name="pipe">The reaches; wave speeds don't matter.</param>
    /// <param name="intakeLoss">Loss coefficient on the velocity head of the first reach.</param>
    /// <param name="endLoss">Loss coefficient on that of the last: valve and the velocity head that leaves; above 0.</param>
    /// <param name="water">The water.</param>
    public static double SteadyVelocityMPerS(
        double headM, SeriesPipe pipe, double intakeLoss, double endLoss, WaterProperties water)
    {
        double area = pipe.AtRam.AreaM2;
        double intake = area / pipe.Reaches[0].AreaM2;
        double velocity = 1.0;
        // The factor changes slowly with velocity: each round gains more than a decimal place.
        for (int round = 0; round < 50; round++)
        {
            double loss = pipe.Reaches.Sum(r => WallLoss(r, velocity, area, water)) + intakeLoss * intake * intake + endLoss;
            double next = Math.Sqrt(2 * Constants.GravityMPerS2 * headM / loss);
            if (Math.Abs(next - velocity) < 1e-12 * next)
            {
                return next;
            }

            velocity = next;
        }

        return velocity;
    }

    // f L/D of a reach, on the velocity head at the ram.
    private static double WallLoss(PipeReach reach, double velocityAtRam, double areaAtRam, WaterProperties water)
    {
        double ratio = areaAtRam / reach.AreaM2;
        double reynolds = Reynolds(velocityAtRam * ratio, reach.BoreM, water.KinematicViscosityM2PerS);
        return DarcyFactor(reynolds, reach.RoughnessM / reach.BoreM) * reach.LengthM / reach.BoreM * ratio * ratio;
    }
}
