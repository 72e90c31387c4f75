using Clackbeat.Signal.Flow;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Tests.Flow;

public class BucketCalibrationTests
{
    [Fact]
    public void Two_equally_good_figures_meet_in_the_middle()
    {
        // Hand calculation: weights of 1/u² each, so the mean, and u/√2.
        BucketCalibration calibration = Calibrated(1.04e-4);

        Assert.Equal(1.02e-4, calibration.Delivered.Value, 1e-10);
        Assert.Equal(2e-6 / Math.Sqrt(2), calibration.Delivered.Uncertainty, 1e-10);
        Assert.Empty(calibration.Disagreements);
    }

    [Fact]
    public void What_the_flows_share_moves_the_other_one_too()
    {
        // Correlation 0.8: the waste flow follows by 0.8 × 2e-5 / 2e-6 × half the miss of 4e-6 = 1.6e-5.
        Assert.Equal(1e-3 + 1.6e-5, Calibrated(1.04e-4).Waste.Value, 1e-9);
    }

    [Fact]
    public void A_bucket_far_off_is_named() => Assert.Single(Calibrated(1.3e-4).Disagreements);

    /// <summary>A test at the delivery whose standard uncertainty is 2e-6 m³/s in all, the watch's half second included.</summary>
    private static BucketCalibration Calibrated(double flow)
    {
        var calibration = new BucketCalibration(new Estimate(1.00e-4, 2e-6), new Estimate(1e-3, 2e-5));
        double watch = 0.5 * 0.5 / 100 * flow;
        double volume = Math.Sqrt((2e-6 * 2e-6) - (watch * watch)) * 100;
        calibration.Add(new BucketTest
        {
            Outlet = BucketOutlet.Delivery,
            VolumeM3 = 100 * flow,
            VolumeUncertaintyM3 = 2 * volume,
            TimeS = 100,
        });
        return calibration;
    }
}
