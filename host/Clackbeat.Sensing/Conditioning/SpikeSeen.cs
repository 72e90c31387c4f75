using Clackbeat.Hydraulics;

namespace Clackbeat.Sensing.Conditioning;

/// <summary>
/// What is left of a short spike (a half sine) behind a sensor and a filter, each of first order, and behind the
/// sampling: the samples may fall beside the crest. By the Laplace transform of a sine that begins at 0, taken twice: a
/// half sine is a sine plus the same sine begun half a period later.
/// </summary>
/// <param name="LengthS">Length of the spike [s].</param>
/// <param name="SensorRiseS">Rise of the sensor from 10 to 90 % of a step [s]; its time constant is that over ln 9.</param>
/// <param name="Filter">The filter before the converter.</param>
public readonly record struct SpikeSeen(double LengthS, double SensorRiseS, LowPass Filter)
{
    // Points a spike's length at which the crest is searched: the crest is flat, so it is found to better than 1e-6.
    private const int Points = 2000;

    // The crest comes at most this many lengths after the spike began, for any filter that leaves a tenth of it.
    private const int Lengths = 6;

    /// <summary>Share of the height that the converter's pin sees at its highest.</summary>
    public double AtThePin => Highest(0, LengthS / Points);

    /// <summary>
    /// Share that the samples show: between the worst and the best place of the samples on the spike.
    /// </summary>
    /// <param name="rateHz">Samples a second.</param>
    public Band Sampled(double rateHz)
    {
        double periodS = 1 / rateHz;
        double worst = double.PositiveInfinity;
        for (int i = 0; i < Points; i++)
        {
            worst = Math.Min(worst, Highest(periodS * i / Points, periodS));
        }

        return new Band(worst, AtThePin);
    }

    /// <summary>Share of the height at a time after the spike began.</summary>
    public double At(double timeS) => Sine(timeS) + (timeS > LengthS ? Sine(timeS - LengthS) : 0);

    private double Highest(double fromS, double stepS)
    {
        double highest = 0;
        for (double t = fromS; t < Lengths * LengthS; t += stepS)
        {
            highest = Math.Max(highest, At(t));
        }

        return highest;
    }

    // Two first-order lags on sin ωt from t = 0: the steady swing and the two transients.
    private double Sine(double timeS)
    {
        double omega = Math.PI / LengthS;
        double a = SensorRiseS / Math.Log(9);
        double b = Filter.TimeConstantS;
        if (Math.Abs(a - b) < 1e-9 * b)
        {
            // The formula below divides by the difference; so small a change shows in nothing.
            a = b * (1 + 1e-6);
        }

        double x = omega * a;
        double y = omega * b;
        double scale = 1 / ((1 + (x * x)) * (1 + (y * y)));
        double steady = (((1 - (x * y)) * Math.Sin(omega * timeS)) - ((x + y) * Math.Cos(omega * timeS))) * scale;
        double first = omega * a * a / ((a - b) * (1 + (x * x))) * Math.Exp(-timeS / a);
        double second = omega * b * b / ((b - a) * (1 + (y * y))) * Math.Exp(-timeS / b);
        return steady + first + second;
    }
}
