using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Parameters;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.Random;

namespace Clackbeat.VirtualRam.Sensing;

/// <summary>Sensor and converter: answers, errs, adds noise, rounds to counts and stops at the converter's ends.</summary>
internal sealed class SensorChain
{
    private readonly SensorParameters _sensor;
    private readonly Fault _fault;
    private readonly RandomSource _random;
    private readonly double _span;
    private int? _frozen;

    internal SensorChain(SensorParameters sensor, Fault fault, int seed)
    {
        _sensor = sensor;
        _fault = fault;
        _random = new Xoshiro256StarStar(seed, threadSafe: false);
        _span = sensor.RangeHighPa - sensor.RangeLowPa;
    }

    /// <summary>Departure of the next sample's instant from its even place [s].</summary>
    internal double NextJitterS() =>
        _sensor.JitterS > 0 ? _sensor.JitterS * Math.Clamp(Normal.Sample(_random, 0, 1), -4, 4) : 0;

    /// <summary>The converter's reading for what the sensor's element feels.</summary>
    internal int Read(double pressurePa)
    {
        double noise = _sensor.NoisePa > 0 ? _sensor.NoisePa * Normal.Sample(_random, 0, 1) : 0;
        double read = _sensor.Gain * pressurePa + _sensor.OffsetPa + noise;
        if (_fault.Condition == RamCondition.SensorFault)
        {
            return Broken(read);
        }

        return Convert(read);
    }

    /// <summary>Gauge pressure of a reading by the nominal range [Pa].</summary>
    internal double PressurePa(int counts) =>
        _sensor.RangeLowPa + _span * (counts - _sensor.CountsAtLow) / (_sensor.CountsAtHigh - _sensor.CountsAtLow);

    private int Broken(double read)
    {
        switch (_fault.SensorFault)
        {
            case SensorFaultKind.FlatLine:
                return _frozen ??= Convert(read);
            case SensorFaultKind.OpenLoop:
                return 0;
            case SensorFaultKind.Clipping:
                return Math.Min(Convert(read), Convert(_sensor.RangeLowPa + _span * (0.3 - 0.25 * _fault.Severity)));
            case SensorFaultKind.Inverted:
                return Convert(-read);
            case SensorFaultKind.Noisy:
                return Convert(read + 0.1 * _fault.Severity * _span * Normal.Sample(_random, 0, 1));
            default:
                return Convert(read);
        }
    }

    private int Convert(double pressurePa)
    {
        double counts = _sensor.CountsAtLow
            + (pressurePa - _sensor.RangeLowPa) / _span * (_sensor.CountsAtHigh - _sensor.CountsAtLow);
        return (int)Math.Clamp(Math.Round(counts), 0, _sensor.HighestCount);
    }
}
