using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Solver;

/// <summary>The small hole in the body: it spits water under pressure and lets air in under suction.</summary>
internal sealed class Snifter(RamParameters ram)
{
    // As in the valves: below this head the square root bends into a straight line.
    private const double LinearHeadM = 1e-3;

    // Air at 15 °C: p V of a kilogram, R T [J/kg].
    private const double AirWorkJPerKg = 287.05 * 288.15;

    private static readonly double RootTwoG = Math.Sqrt(2 * Constants.GravityMPerS2);
    private readonly double _weight = ram.Water.DensityKgPerM3 * Constants.GravityMPerS2;

    /// <summary>Water out and its slope for a head in the body; none under suction.</summary>
    internal double WaterM3PerS(double headM, out double slope)
    {
        if (headM <= 0)
        {
            slope = 0;
            return 0;
        }

        double bent = headM * headM + LinearHeadM * LinearHeadM;
        double fourth = Math.Sqrt(Math.Sqrt(bent));
        double conductance = ram.Body.SnifterAreaM2 * RootTwoG;
        slope = conductance * (0.5 * headM * headM + LinearHeadM * LinearHeadM) / (bent * fourth);
        return conductance * headM / fourth;
    }

    /// <summary>What the body's gas gains in a step, as volume times absolute head [m⁴]: air drawn in less air carried on.</summary>
    internal double GasGain(double headM, double drawnIn, double deliveryM3PerS, double stepS)
    {
        double inside = ram.Water.AtmospherePa + _weight * headM;
        double gain = headM < 0
            ? Orifice.AirKgPerS(ram.Body.SnifterAreaM2, ram.Water.AtmospherePa, Math.Max(0, inside), 15, 1) * AirWorkJPerKg / _weight
            : 0;
        double leaves = drawnIn * Math.Max(0, deliveryM3PerS) / ram.Body.VolumeM3;
        return stepS * (gain - leaves);
    }
}
