using Clackbeat.Site.Facts;
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
    public Estimate Delivered { get; private set; }

    /// <summary>Waste flow [m³/s] and its standard uncertainty.</summary>
    public Estimate Waste { get; private set; }

    /// <summary>What did not fit together.</summary>
    public List<Fact> Disagreements { get; } = [];

    private double _covariance;

    /// <summary>Starts from the flows the pressure gave.</summary>
    public BucketCalibration(Estimate delivered, Estimate waste)
    {
        (Delivered, Waste) = (delivered, waste);
        _covariance = Correlation * delivered.Uncertainty * waste.Uncertainty;
    }

    /// <summary>Standard uncertainty of a test's flow [m³/s].</summary>
    public static double UncertaintyOf(BucketTest test)
    {
        double volume = 0.5 * (test.VolumeUncertaintyM3 ?? (VolumeShare * test.VolumeM3)) / test.VolumeM3;
        double watch = 0.5 * WatchS / test.TimeS;
        return test.FlowM3PerS * StandardUncertainty.Combine(volume, watch);
    }

    /// <summary>Takes a test into account.</summary>
    public void Add(BucketTest test)
    {
        double uncertainty = UncertaintyOf(test);
        bool atDelivery = test.Outlet == BucketOutlet.Delivery;
        (double value, double own) = atDelivery ? Delivered : Waste;
        double miss = test.FlowM3PerS - value;
        double total = (own * own) + (uncertainty * uncertainty);
        if (Math.Abs(miss) > 2 * Math.Sqrt(total))
        {
            (FactValue bucket, FactValue pressure) = (("bucket_l_per_min", test.FlowM3PerS * 6e4), ("pressure_l_per_min", value * 6e4));
            Disagreements.Add(atDelivery
                ? Fact.Of("bucket-disagrees-delivery", bucket, pressure)
                : Fact.Of("bucket-disagrees-waste", bucket, pressure));
        }

        (double delivered, double waste) = atDelivery
            ? (own * own / total, _covariance / total)
            : (_covariance / total, own * own / total);
        double deliveredCross = atDelivery ? own * own : _covariance;
        double wasteCross = atDelivery ? _covariance : own * own;
        (double d2, double w2) = (Delivered.Uncertainty * Delivered.Uncertainty, Waste.Uncertainty * Waste.Uncertainty);
        Delivered = new Estimate(Delivered.Value + (delivered * miss), Math.Sqrt(Math.Max(0, d2 - (delivered * deliveredCross))));
        Waste = new Estimate(Waste.Value + (waste * miss), Math.Sqrt(Math.Max(0, w2 - (waste * wasteCross))));
        _covariance -= delivered * wasteCross;
    }
}
