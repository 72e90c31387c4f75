using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Signal.Tests.Flow;

/// <summary>Detector and estimator joined as a program joins them.</summary>
internal static class FlowBench
{
    public static FlowResult Measure(RamSite site, double[] times, double[] pressures, List<Beat>? beats = null)
    {
        var hydraulics = SiteHydraulics.Of(site);
        var estimator = new FlowEstimator(site);
        var scale = new RamScale(
            hydraulics.PressurePa(site.Supply.HeadM), hydraulics.PressurePa(site.Delivery.HeadM), hydraulics.PipePeriodS);
        var detector = new BeatDetector(scale, window =>
        {
            beats?.Add(window.Beat);
            estimator.OnBeat(window);
        });
        for (int i = 0; i < times.Length; i++)
        {
            detector.Add(times[i], pressures[i]);
        }

        detector.Finish();
        return estimator.Finish();
    }
}
