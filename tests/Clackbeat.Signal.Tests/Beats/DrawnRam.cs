using Clackbeat.Signal.Beats;

namespace Clackbeat.Signal.Tests.Beats;

/// <summary>
/// A ram drawn by hand, sample by sample, a thousand a second: 120 ms of delivery at 200 kPa, 130 ms of suction at −30 kPa, 750 ms open
/// at 2 kPa. Nothing is simulated, so every instant and level of it is known.
/// </summary>
internal static class DrawnRam
{
    public const double StepS = 0.001;
    public const double OpenPa = 2e3;
    public const double DeliveryPa = 200e3;
    public const double SuctionPa = -30e3;
    public const int BeatSamples = 1000;
    public const int LeadSamples = 500;

    /// <summary>Supply 25 kPa, delivery 200 kPa, pipe period 24 ms: the shortest open phase is 0.096 s.</summary>
    public static RamScale Scale { get; } = new(25e3, 200e3, 0.024);

    /// <summary>One beat from its closure on: what is given, then plateau, suction and open phase.</summary>
    public static double[] Beat(params double[] start) =>
        [.. start, .. Stay(DeliveryPa, 120 - start.Length), .. Stay(SuctionPa, 130), .. Stay(OpenPa, 750)];

    /// <summary>So many samples of one pressure.</summary>
    public static double[] Stay(double pressurePa, int samples) => [.. Enumerable.Repeat(pressurePa, samples)];

    /// <summary>Half a second open, then so many beats.</summary>
    public static double[] Record(int beats, params double[] start) =>
        [.. Stay(OpenPa, LeadSamples), .. Enumerable.Range(0, beats).SelectMany(_ => Beat(start))];

    /// <summary>The time at which the beat of this number was drawn to close [s].</summary>
    public static double DrawnS(int beat) => StepS * (LeadSamples + (beat * BeatSamples));

    /// <summary>Times of evenly spaced samples [s].</summary>
    public static double[] Times(int samples, double stepS = StepS, double fromS = 0) => [.. Enumerable.Range(0, samples).Select(i => fromS + (stepS * i))];

    public static List<Beat> Found(double[] pressuresPa, double[]? timesS = null, RamScale? scale = null) => Found(pressuresPa, timesS, scale, out _);

    /// <summary>What a detector finds that gets the samples one by one.</summary>
    public static List<Beat> Found(double[] pressuresPa, double[]? timesS, RamScale? scale, out BeatDetector detector)
    {
        List<Beat> beats = [];
        detector = new BeatDetector(scale ?? Scale, window => beats.Add(window.Beat));
        timesS ??= Times(pressuresPa.Length);
        for (int i = 0; i < pressuresPa.Length; i++)
        {
            detector.Add(timesS[i], pressuresPa[i]);
        }

        detector.Finish();
        return beats;
    }
}
