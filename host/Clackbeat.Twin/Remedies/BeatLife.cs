using Clackbeat.Hydraulics.Fatigue;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Site.Check;
using Clackbeat.Site.Model;
using Clackbeat.Twin.Model;

namespace Clackbeat.Twin.Remedies;

/// <summary>The drive pipe under one beat of a twin, again and again.</summary>
internal static class BeatLife
{
    private const double ResolutionPa = 1000;
    private const double LowestPa = -1.1e5;
    private const double HighestOverPeak = 1.5;
    private const int Steps = 300;

    // A cycle closes only when the next beat begins.
    private const int Repeats = 3;

    internal static PipeCheck Of(RamSite site, Cycle beat, double weightNPerM3)
    {
        double peakPa = weightNPerM3 * beat.PeakM;
        var histogram = new RainflowHistogram(LowestPa, HighestOverPeak * peakPa, Steps);
        var counter = new RainflowCounter(histogram.Add, ResolutionPa);
        int points = Math.Max(2, (int)(beat.IntervalS / beat.Head.StepS));
        for (int i = 0; i < Repeats * points; i++)
        {
            counter.Add(weightNPerM3 * beat.Head.At(beat.IntervalS * (i % points) / points));
        }

        counter.Finish();
        return PipeRating.Check(SiteLoad.Of(site) with
        {
            PeakPa = peakPa,
            PeakUncertaintyPa = 0,
            TroughPa = weightNPerM3 * beat.SuctionM,
            BeatsPerMin = 60 / beat.IntervalS,
            Cycles = histogram,
            CyclesDurationS = Repeats * beat.IntervalS,
            SampleRateHz = null,
            SensorResponseS = null,
        });
    }
}
