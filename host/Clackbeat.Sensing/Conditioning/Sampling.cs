namespace Clackbeat.Sensing.Conditioning;

/// <summary>What sampling and a sensor's own speed do to what is seen.</summary>
public static class Sampling
{
    /// <summary>Frequency at which a swing too fast for the samples shows [Hz]: its distance from the nearest multiple of the rate.</summary>
    public static double AliasHz(double frequencyHz, double rateHz) =>
        Math.Abs(frequencyHz - (rateHz * Math.Round(frequencyHz / rateHz)));

    /// <summary>Worst share of a sine's crest that falls between samples, 1 − cos(π/n).</summary>
    /// <param name="samplesPerCycle">Samples in a cycle, at least 2.</param>
    public static double WorstCrestLoss(double samplesPerCycle) => 1 - Math.Cos(Math.PI / samplesPerCycle);

    /// <summary>Bandwidth that goes with a rise from 10 to 90 %, 0.35/t (first order: ln 9/2π = 0.3497) [Hz].</summary>
    public static double BandwidthHz(double riseS) => Math.Log(9) / (2 * Math.PI) / riseS;

    /// <summary>Rise that is shown when a signal and what measures it each take their time, by root sum of squares [s].</summary>
    public static double ShownRiseS(double signalRiseS, double instrumentRiseS) =>
        Math.Sqrt((signalRiseS * signalRiseS) + (instrumentRiseS * instrumentRiseS));

    /// <summary>Natural frequency of a second-order sensor that rings at a frequency with a damping ratio, f/√(1 − ζ²) [Hz].</summary>
    public static double NaturalHz(double ringingHz, double dampingRatio) => ringingHz / Math.Sqrt(1 - (dampingRatio * dampingRatio));
}
