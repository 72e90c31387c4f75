using Clackbeat.Twin.Fitting;
using Clackbeat.Twin.Model;

namespace Clackbeat.Twin.Air;

/// <summary>
/// How much air the vessel holds, as far as the record tells. Water that enters presses the air together, so the delivery plateau rises: for
/// polytropic gas by dh/dt = n (h + h_air) (Q − Q_main)/V. The record's rise is compared with that of twins whose vessels hold more and more
/// air. Little air shows; much of it lets the plateau stand, and then any more looks the same.
/// </summary>
/// <param name="M3">The air under the pressure of the main at rest [m³]: the median.</param>
/// <param name="LowM3">It is no less, 39 times out of 40 [m³].</param>
/// <param name="HighM3">It is no more, 39 times out of 40 [m³].</param>
/// <param name="LogSpread">Standard deviation of its logarithm.</param>
/// <param name="FullM3">A full vessel's [m³].</param>
public sealed record VesselAir(double M3, double LowM3, double HighM3, double LogSpread, double FullM3)
{
    /// <summary>Of a full vessel's air, what a vessel that lost its air has left: that of the virtual ram at its worst (docs/virtual-ram.md).</summary>
    public const double LostShare = 0.04;

    // Before the record: as likely at each share from a lost vessel's to the largest that is usual, in equal ratios. A vessel laid out for
    // thirty deliveries a beat may hold four times that, and one of known volume no more than its volume, of which full is six tenths.
    private const double LeastShare = 0.03;
    private const double MostShare = 4;
    private const double MostOfKnown = 1 / 0.6;
    private const int Points = 80;
    private const double Tail = 0.025;

    // What a twin misses of the plateau's rise, as a share of the plateau and as one of the rise: by its make, and by a main that is laid out
    // for the site and takes more or less of a delivery than the real one. Chosen on drawn rams of the choosing set (docs/twin.md).
    private const double RiseShare = 0.05;
    private const double ShareOfRise = 0.35;

    // Enough for a curve that goes nearly as 1/V.
    private static readonly double[] Tried = [0.03, 0.06, 0.15, 0.4, 1, 4];

    /// <summary>How much of what was unknown the record told: 0 nothing, 1 everything.</summary>
    public double Seen => Math.Clamp(1 - (LogSpread / (Math.Log(MostShare / LeastShare) / Math.Sqrt(12))), 0, 1);

    /// <summary>The record gives no upper end: more air would look the same.</summary>
    public bool IsOpen { get; private init; }

    /// <summary>Reads it off a record by its twin.</summary>
    /// <param name="twin">The twin.</param>
    /// <param name="cancellation">Ends the work early.</param>
    public static VesselAir Of(FittedTwin twin, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(twin);
        double full = twin.Frame.Designed.AirVessel.GasM3;
        double most = twin.Frame.Site.AirVessel.VolumeM3 is null ? MostShare : MostOfKnown;
        double measured = PlateauRise.Of(twin.Measured.Head, twin.Measured);
        (double Inverse, double Rise)[] rises = [.. Tried
            .Select(share => (1 / share, CycleRun.Of(WorkingVessel.Of(twin.Frame.Ram(twin.Values), twin, share * full), twin.Measured.IntervalS, cancellation)))
            .Where(t => t.Item2 is not null)
            .Select(t => (t.Item1, PlateauRise.Of(twin.Laid(t.Item2!), twin.Measured)))];
        double[] logs = [.. Enumerable.Range(0, Points).Select(i => Math.Log(LeastShare) + (Math.Log(most / LeastShare) * (i + 0.5) / Points))];
        double[] weights = [.. logs.Select(x => rises.Length < 2 ? 1 : Likelihood(measured, At(rises, Math.Exp(-x))))];
        double sum = weights.Sum();
        double mean = logs.Zip(weights, (x, w) => x * w).Sum() / sum;
        double spread = Math.Sqrt(logs.Zip(weights, (x, w) => (x - mean) * (x - mean) * w).Sum() / sum);
        double high = Quantile(logs, weights, 1 - Tail);
        return new VesselAir(
            full * Math.Exp(Quantile(logs, weights, 0.5)), full * Math.Exp(Quantile(logs, weights, Tail)), full * Math.Exp(high), spread, full)
        {
            IsOpen = high > logs[^1] - (0.1 * Math.Log(MostShare / LeastShare)),
        };
    }

    private static double Likelihood(double measured, double twin)
    {
        double spread = Math.Sqrt((RiseShare * RiseShare) + Math.Pow(ShareOfRise * twin, 2));
        return Math.Exp(-0.5 * Math.Pow((measured - twin) / spread, 2)) / spread;
    }

    private static double At((double Inverse, double Rise)[] rises, double inverse)
    {
        // From the least air to the most, so from the largest inverse down.
        int i = 1;
        while (i < rises.Length - 1 && rises[i].Inverse > inverse)
        {
            i++;
        }

        ((double x0, double y0), (double x1, double y1)) = (rises[i - 1], rises[i]);
        return y0 + ((inverse - x0) / (x1 - x0) * (y1 - y0));
    }

    private static double Quantile(double[] logs, double[] weights, double share)
    {
        double left = share * weights.Sum();
        int i = 0;
        while (i < logs.Length - 1 && left > weights[i])
        {
            left -= weights[i++];
        }

        return logs[i];
    }
}
