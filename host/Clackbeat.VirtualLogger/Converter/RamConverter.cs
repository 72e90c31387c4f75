using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Sensing;

namespace Clackbeat.VirtualLogger.Converter;

/// <summary>
/// A virtual ram as what the converter sees at any instant: its sensor's answer, straight lines between closely spaced
/// points. Rounding, clipping and noise are the converter's own and come once.
/// </summary>
public static class RamConverter
{
    /// <summary>Points a second; well above any rate a logger keeps.</summary>
    public const double PointsHz = 8000;

    // So many steps to one count of the sensor's own converter: nothing is rounded twice.
    private const int Fineness = 4096;

    // While nobody reads for longer than this, the ram stands still: a logger that idles or sleeps for months costs
    // nothing, and a reader who comes meets the ram where the last one left it.
    private const double LongestUnwatchedS = 0.5;

    /// <summary>The sensor to make the <see cref="RamSimulation"/> with.</summary>
    /// <param name="sensor">The sensor as the site has it; its rate, jitter and noise are the logger's matter here.</param>
    public static SensorParameters Continuous(SensorParameters sensor) => sensor with
    {
        RateHz = PointsHz,
        JitterS = 0,
        NoisePa = 0,
        CountsAtLow = sensor.CountsAtLow * Fineness,
        CountsAtHigh = sensor.CountsAtHigh * Fineness,
        HighestCount = ((sensor.HighestCount + 1) * Fineness) - 1,
    };

    /// <summary>Makes the converter over a ram that was made with <see cref="Continuous"/>.</summary>
    /// <param name="ram">The ram; nobody else may draw samples from it.</param>
    /// <param name="sensor">Sensor and converter.</param>
    /// <param name="noisePa">Noise of the sensor, one standard deviation [Pa], beside the converter's own.</param>
    /// <param name="seed">Seed of the noise.</param>
    public static PressureConverter Of(RamSimulation ram, SensorModel sensor, double noisePa = 0, int seed = 1) =>
        Of(ram.Next, sensor, noisePa, seed);

    /// <summary>Makes the converter over samples of a ram that may be changed while it runs.</summary>
    /// <param name="next">The next sample of a ram that was made with <see cref="Continuous"/>; times rise.</param>
    /// <param name="sensor">Sensor and converter.</param>
    /// <param name="noisePa">Noise of the sensor, one standard deviation [Pa], beside the converter's own.</param>
    /// <param name="seed">Seed of the noise.</param>
    public static PressureConverter Of(Func<VirtualSample> next, SensorModel sensor, double noisePa = 0, int seed = 1)
    {
        double noiseCounts = Math.Abs(sensor.CountsAt(noisePa) - sensor.CountsAt(0));
        SensorModel noisy = sensor with { NoiseCounts = double.Hypot(sensor.NoiseCounts, noiseCounts) };
        VirtualSample before = next();
        VirtualSample after = next();
        double lastS = 0;
        double unwatchedS = 0;
        return new PressureConverter(At, noisy, seed);

        double? At(double timeS)
        {
            unwatchedS += Math.Max(0, timeS - lastS - LongestUnwatchedS);
            lastS = timeS;
            double ramS = timeS - unwatchedS;
            while (after.TimeS < ramS)
            {
                before = after;
                after = next();
            }

            double share = Math.Clamp((ramS - before.TimeS) / (after.TimeS - before.TimeS), 0, 1);
            return before.PressurePa + (share * (after.PressurePa - before.PressurePa));
        }
    }
}
