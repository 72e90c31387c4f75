using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Flow;

/// <summary>
/// Brings timed bucket tests and the flows from the pressure together by least squares (JCGM 102:2011; the update of a
/// linear model by a measurement). The flows' uncertainties go together for the most part, so a bucket at either outlet
/// sharpens both.
/// </summary>
internal sealed class BucketCalibration
{
    // The flows share bore, length and closing velocity, which make up most of their uncertainty.
    private const double Correlation = 0.8;

    // Reading a bucket's mark to 3 %, starting and stopping the watch to 0.5 s, both k = 2 (common practice, from memory).
    private const double VolumeShare = 0.03;
    private const double WatchS = 0.5;

    /// <summary>Delivered flow [m³/s] and its standard uncertainty.</summary>
    public (double Value, double Spread) Delivered { get; private set; }

    /// <summary>Waste flow [m³/s] and its standard uncertainty.</summary>
    public (double Value, double Spread) Waste { get; private set; }

    /// <summary>What did not fit together, in sentences.</summary>
    public List<string> Disagreements { get; } = [];

    private double _covariance;

    /// <summary>Starts from the flows the pressure gave.</summary>
    public BucketCalibration((double Value, double Spread) delivered, (double Value, double Spread) waste)
    {
        (Delivered, Waste) = (delivered, waste);
        _covariance = Correlation * delivered.Spread * waste.Spread;
    }

    /// <summary>Takes a test into account.</summary>
    public void Add(BucketTest test)
    {
        double volume = 0.5 * (test.VolumeUncertaintyM3 ?? (VolumeShare * test.VolumeM3)) / test.VolumeM3;
        double watch = 0.5 * WatchS / test.TimeS;
        double spread = test.FlowM3PerS * Math.Sqrt((volume * volume) + (watch * watch));
        bool atDelivery = test.Outlet == BucketOutlet.Delivery;
        (double value, double own) = atDelivery ? Delivered : Waste;
        double miss = test.FlowM3PerS - value;
        double total = (own * own) + (spread * spread);
        if (Math.Abs(miss) > 2 * Math.Sqrt(total))
        {
            Disagreements.Add(
                $"The bucket test at the {(atDelivery ? "delivery" : "waste valve")} gives {test.FlowM3PerS * 6e4:0.##} L/min, "
                + $"the pressure {value * 6e4:0.##} L/min: they differ by more than both uncertainties. "
                + "Check the bucket test's numbers, the pipe's bore and length, and that the ram ran the same way.");
        }

        (double delivered, double waste) = atDelivery
            ? (own * own / total, _covariance / total)
            : (_covariance / total, own * own / total);
        double deliveredCross = atDelivery ? own * own : _covariance;
        double wasteCross = atDelivery ? _covariance : own * own;
        (double d2, double w2) = (Delivered.Spread * Delivered.Spread, Waste.Spread * Waste.Spread);
        Delivered = (Delivered.Value + (delivered * miss), Math.Sqrt(Math.Max(0, d2 - (delivered * deliveredCross))));
        Waste = (Waste.Value + (waste * miss), Math.Sqrt(Math.Max(0, w2 - (waste * wasteCross))));
        _covariance -= delivered * wasteCross;
    }
}
