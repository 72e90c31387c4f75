using Clackbeat.Protocol;

namespace Clackbeat.VirtualLogger.Converter;

/// <summary>A converter that sees a pressure through a sensor: rounded, clipped at its ends, with noise.</summary>
public sealed class PressureConverter : IConverterSource
{
    private readonly Func<double, double?> _pressurePaAt;
    private readonly SensorModel _sensor;
    private readonly Random _random;

    /// <summary>Makes a converter over a pressure in time.</summary>
    /// <param name="pressurePaAt">Pressure [Pa gauge] at a time [s]; null behind its end. Times never step back.</param>
    /// <param name="sensor">The sensor and the converter.</param>
    /// <param name="seed">Seed of the noise: the same seed gives the same counts.</param>
    public PressureConverter(Func<double, double?> pressurePaAt, SensorModel sensor, int seed = 1)
    {
        _pressurePaAt = pressurePaAt;
        _sensor = sensor;
        _random = new Random(seed);
    }

    /// <summary>Makes a converter over evenly sampled pressures, straight lines between them.</summary>
    /// <param name="pressuresPa">Pressures [Pa gauge], the first at time 0.</param>
    /// <param name="rateHz">Samples a second.</param>
    /// <param name="sensor">The sensor and the converter.</param>
    /// <param name="seed">Seed of the noise.</param>
    public static PressureConverter FromSamples(
        IReadOnlyList<double> pressuresPa, double rateHz, SensorModel sensor, int seed = 1)
    {
        return new PressureConverter(At, sensor, seed);

        double? At(double timeS)
        {
            double position = timeS * rateHz;
            int before = (int)position;
            if (before < 0 || before + 1 >= pressuresPa.Count)
            {
                return null;
            }

            double share = position - before;
            return ((1 - share) * pressuresPa[before]) + (share * pressuresPa[before + 1]);
        }
    }

    /// <inheritdoc/>
    public bool TryRead(int channel, double timeS, out int counts)
    {
        double? ideal = channel switch
        {
            Channels.Pressure => _pressurePaAt(timeS) is double pressurePa ? _sensor.CountsAt(pressurePa) : null,
            Channels.Supply => _sensor.SupplyCounts,
            _ => null,
        };
        if (ideal is not double value)
        {
            counts = 0;
            return false;
        }

        double noisy = value + (_sensor.NoiseCounts * Gaussian());
        counts = (int)Math.Clamp(Math.Round(noisy), 0, _sensor.MaxCounts);
        return true;
    }

    // Box and Muller, doi 10.1214/aoms/1177706645.
    private double Gaussian() =>
        Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())) * Math.Cos(2 * Math.PI * _random.NextDouble());
}
