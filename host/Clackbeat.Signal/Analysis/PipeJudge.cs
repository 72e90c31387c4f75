using Clackbeat.Hydraulics.Fatigue;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Signal.Beats;
using Clackbeat.Site;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Analysis;

/// <summary>Counts the load cycles of a record as it streams past and holds the drive pipe against its rating at the end.</summary>
internal sealed class PipeJudge
{
    // A thousandth of a bar is far under any load that tires a pipe, and bounds the counter's memory.
    private const double ResolutionPa = 1000;

    private readonly RamSite _site;
    private readonly RainflowHistogram _cycles;
    private readonly RainflowCounter _counter;

    /// <summary>Makes a judge for one record.</summary>
    public PipeJudge(RamSite site)
    {
        _site = site;
        double spanPa = site.Sensor.RangeHighPa - site.Sensor.RangeLowPa;
        _cycles = new RainflowHistogram(site.Sensor.RangeLowPa - spanPa, site.Sensor.RangeHighPa + spanPa, 400);
        _counter = new RainflowCounter(_cycles.Add, ResolutionPa);
    }

    /// <summary>Takes the next sample [Pa gauge].</summary>
    public void Add(double pressurePa) => _counter.Add(pressurePa);

    /// <summary>The verdict; unknown while no beat was seen.</summary>
    public PipeCheck Judge(RecordTally tally, IReadOnlyList<Beat> beats, PressureSummary pressures, BeatSummary rhythm)
    {
        _counter.Finish();
        return PipeRating.Check(SiteLoad.Of(_site) with
        {
            PeakPa = pressures.PeakTrue?.Value,
            PeakUncertaintyPa = pressures.PeakTrue?.U,
            Clipped = tally.ClippedHigh > 0,
            SampleRateHz = tally.RateHz,
            // The site's ceiling rests on an assumed velocity; a record's belongs to the velocity measured in it.
            CeilingPa = null,
            MeanPa = pressures.MeanPa,
            TroughPa = tally.ClippedLow > 0 ? null : pressures.SuctionMinPa,
            BeatsPerMin = rhythm.RatePerMin?.Value,
            Cycles = beats.Count > 0 ? _cycles : null,
            CyclesDurationS = beats.Count > 0 ? beats.Sum(b => b.IntervalS) : null,
        });
    }
}
