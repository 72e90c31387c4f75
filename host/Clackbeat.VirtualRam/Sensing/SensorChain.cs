using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Parameters;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.Random;

namespace Clackbeat.VirtualRam.Sensing;

/// <summary>Sensor and converter: answers, errs, adds noise, rounds to counts and stops at the converter's ends.</summary>
internal sealed class SensorChain
{
    private readonly SensorParameters sensor;
    private readonly Fault fault;
    private readonly RandomSource random;
    private readonly double span;
    private int? frozen;

    internal SensorChain(SensorParameters sensor, Fault fault, int seed)
    {
        this.sensor = sensor;
        this.fault = fault;
        random = new Xoshiro256StarStar(seed, threadSafe: false);
        span = sensor.RangeHighPa - sensor.RangeLowPa;
    }

    /// <summary>Departure of the next sample's instant from its even place [s].</summary>
    internal double NextJitterS() =>
        sensor.JitterS > 0 ? sensor.JitterS * Math.Clamp(Normal.Sample(random, 0, 1), -4, 4) : 0;

    /// <summary>The converter's reading for what the sensor's element feels.</summary>
    internal int Read(double pressurePa)
    {
        var noise = sensor.NoisePa > 0 ? sensor.NoisePa * Normal.Sample(random, 0, 1) : 0;
        var read = sensor.Gain * pressurePa + sensor.OffsetPa + noise;
        if (fault.Condition == RamCondition.SensorFault)
        {
            return Broken(read);
        }

        return Convert(read);
    }

    /// <summary>Gauge pressure of a reading by the nominal range [Pa].</summary>
    internal double PressurePa(int counts) =>
        sensor.RangeLowPa + span * (counts - sensor.CountsAtLow) / (sensor.CountsAtHigh - sensor.CountsAtLow);

    private int Broken(double read)
    {
        switch (fault.SensorFault)
        {
            case SensorFaultKind.FlatLine:
                return frozen ??= Convert(read);
            case SensorFaultKind.OpenLoop:
                return 0;
            case SensorFaultKind.Clipping:
                return Math.Min(Convert(read), Convert(sensor.RangeLowPa + span * (0.3 - 0.25 * fault.Severity)));
            case SensorFaultKind.Inverted:
                return Convert(-read);
            case SensorFaultKind.Noisy:
                return Convert(read + 0.1 * fault.Severity * span * Normal.Sample(random, 0, 1));
            default:
                return Convert(read);
        }
    }

    private int Convert(double pressurePa)
    {
        var counts = sensor.CountsAtLow
            + (pressurePa - sensor.RangeLowPa) / span * (sensor.CountsAtHigh - sensor.CountsAtLow);
        return (int)Math.Clamp(Math.Round(counts), 0, sensor.HighestCount);
    }
}
