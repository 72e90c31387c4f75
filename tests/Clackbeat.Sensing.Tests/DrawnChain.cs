namespace Clackbeat.Sensing.Tests;

/// <summary>
/// A sensor chain drawn at random, with sums of its own: sensor errors, resistors within their tolerance, a converter
/// with the maker's limits (zero ±60 mV, reference 1.0 to 1.2 V, curve ±12 counts), a supply that moves, noise.
/// </summary>
internal sealed class DrawnChain
{
    private readonly Random _random;
    private readonly double _rangePa;
    private readonly double _sensorZero;
    private readonly double _sensorSpan;
    private readonly double _sensorBow;
    private readonly double _divider;
    private readonly double _supplyDivider;
    private readonly double _zeroV;
    private readonly double _stepV;
    private readonly double _bowCounts;
    private readonly double _swayCounts;
    private readonly double _rippleCounts;
    private readonly double _ripplePhase;

    public DrawnChain(int seed, double rangePa, double accuracy = 0.005, double tolerance = 0.01)
    {
        _random = new Random(seed);
        _rangePa = rangePa;
        _sensorZero = Within(accuracy);
        _sensorSpan = Within(accuracy);
        _sensorBow = Within(accuracy / 2);
        _divider = Divider(10e3, 10e3, tolerance);
        _supplyDivider = Divider(15e3, 10e3, tolerance);
        _zeroV = 0.142 + Within(0.060);
        _stepV = 3.299 / 4095 * (1.1 + Within(0.1)) / 1.1;
        _bowCounts = Within(7);
        _swayCounts = Within(4);
        _rippleCounts = Within(1);
        _ripplePhase = Within(Math.PI);
    }

    /// <summary>Volts of the supply, anew each time it is asked: within 2 % of 5 V.</summary>
    public double SomeSupplyV() => 5 * (1 + Within(0.02));

    /// <summary>Counts of the signal and of the supply, averaged over so many noisy, rounded samples.</summary>
    public (double Counts, double SupplyCounts) Read(double pressurePa, double supplyV, int samples = 400)
    {
        double x = pressurePa / _rangePa;
        double sensed = x + _sensorZero + (_sensorSpan * x) + (_sensorBow * 4 * x * (1 - x));
        return ReadVolts(supplyV * (0.1 + (0.8 * sensed)), supplyV, samples);
    }

    /// <summary>The same for a voltage fed in place of the sensor.</summary>
    public (double Counts, double SupplyCounts) ReadVolts(double outputV, double supplyV, int samples = 400) =>
        (Mean(outputV * _divider, samples), Mean(supplyV * _supplyDivider, samples));

    /// <summary>A draw from ± a limit, evenly.</summary>
    public double Within(double limit) => limit * ((2 * _random.NextDouble()) - 1);

    /// <summary>A normal draw.</summary>
    public double Normal(double deviation) => deviation
        * Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())) * Math.Cos(2 * Math.PI * _random.NextDouble());

    private double Mean(double volts, int samples)
    {
        double sum = 0;
        for (int i = 0; i < samples; i++)
        {
            sum += Math.Round(Curve(volts) + Normal(3));
        }

        return sum / samples;
    }

    // Bends are counted over 0 to 2.5 V, where the converter is used, not over the range of the sensor.
    private double Curve(double volts)
    {
        double place = volts / 2.5;
        return ((volts - _zeroV) / _stepV)
            + (_bowCounts * Math.Sin(Math.PI * place))
            + (_swayCounts * Math.Sin(2 * Math.PI * place))
            + (_rippleCounts * Math.Sin((6 * Math.PI * place) + _ripplePhase));
    }

    private double Divider(double upperOhm, double lowerOhm, double tolerance)
    {
        double lower = lowerOhm * (1 + Within(tolerance));
        return lower / (lower + (upperOhm * (1 + Within(tolerance))));
    }
}
