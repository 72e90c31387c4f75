namespace Clackbeat.Sensing.Tests;

/// <summary>
/// A sensor chain drawn at random, with sums of its own: sensor errors, resistors within their tolerance, a converter
/// with the maker's limits (zero ±60 mV, reference 1.0 to 1.2 V, curve ±12 counts), a supply that moves, noise.
/// </summary>
internal sealed class DrawnChain
{
    private readonly Random random;
    private readonly double rangePa;
    private readonly double sensorZero;
    private readonly double sensorSpan;
    private readonly double sensorBow;
    private readonly double divider;
    private readonly double supplyDivider;
    private readonly double zeroV;
    private readonly double stepV;
    private readonly double bowCounts;
    private readonly double swayCounts;
    private readonly double rippleCounts;
    private readonly double ripplePhase;

    public DrawnChain(int seed, double rangePa, double accuracy = 0.005, double tolerance = 0.01)
    {
        random = new Random(seed);
        this.rangePa = rangePa;
        sensorZero = Within(accuracy);
        sensorSpan = Within(accuracy);
        sensorBow = Within(accuracy / 2);
        divider = Divider(10e3, 10e3, tolerance);
        supplyDivider = Divider(15e3, 10e3, tolerance);
        zeroV = 0.142 + Within(0.060);
        stepV = 3.299 / 4095 * (1.1 + Within(0.1)) / 1.1;
        bowCounts = Within(7);
        swayCounts = Within(4);
        rippleCounts = Within(1);
        ripplePhase = Within(Math.PI);
    }

    /// <summary>Volts of the supply, anew each time it is asked: within 2 % of 5 V.</summary>
    public double SomeSupplyV() => 5 * (1 + Within(0.02));

    /// <summary>Counts of the signal and of the supply, averaged over so many noisy, rounded samples.</summary>
    public (double Counts, double SupplyCounts) Read(double pressurePa, double supplyV, int samples = 400)
    {
        double x = pressurePa / rangePa;
        double sensed = x + sensorZero + (sensorSpan * x) + (sensorBow * 4 * x * (1 - x));
        return ReadVolts(supplyV * (0.1 + (0.8 * sensed)), supplyV, samples);
    }

    /// <summary>The same for a voltage fed in place of the sensor.</summary>
    public (double Counts, double SupplyCounts) ReadVolts(double outputV, double supplyV, int samples = 400) =>
        (Mean(outputV * divider, samples), Mean(supplyV * supplyDivider, samples));

    /// <summary>A draw from ± a limit, evenly.</summary>
    public double Within(double limit) => limit * ((2 * random.NextDouble()) - 1);

    /// <summary>A normal draw.</summary>
    public double Normal(double deviation) => deviation
        * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

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
        return ((volts - zeroV) / stepV)
            + (bowCounts * Math.Sin(Math.PI * place))
            + (swayCounts * Math.Sin(2 * Math.PI * place))
            + (rippleCounts * Math.Sin((6 * Math.PI * place) + ripplePhase));
    }

    private double Divider(double upperOhm, double lowerOhm, double tolerance)
    {
        double lower = lowerOhm * (1 + Within(tolerance));
        return lower / (lower + (upperOhm * (1 + Within(tolerance))));
    }
}
