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
    private readonly SiteHydraulics _hydraulics;
    private readonly RainflowHistogram _cycles;
    private readonly RainflowCounter _counter;

    /// <summary>Makes a judge for one record.</summary>
    public PipeJudge(RamSite site, SiteHydraulics hydraulics)
    {
        (_site, _hydraulics) = (site, hydraulics);
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
        DrivePipe pipe = _site.DrivePipe;
        return PipeRating.Check(new PipeLoad
        {
            Material = pipe.Material,
            BoreM = pipe.BoreM,
            WallM = pipe.WallM,
            OutsideDiameterM = pipe.OutsideDiameterM,
            PipeClass = pipe.PressureClass,
            PrintedRatingPa = pipe.PressureRatingPa,
            Joint = pipe.Threaded switch { true => PipeJoint.Threaded, false => PipeJoint.Plain, _ => PipeJoint.Unknown },
            TemperatureC = pipe.HighestTemperatureC ?? _site.Supply.WaterTemperatureC,
            PeakPa = pressures.PeakTrue?.Value,
            PeakUncertaintyPa = pressures.PeakTrue?.U,
            Clipped = tally.ClippedHigh > 0,
            SampleRateHz = tally.RateHz,
            PipePeriodS = _hydraulics.PipePeriodS,
            MeanPa = pressures.MeanPa,
            TroughPa = tally.ClippedLow > 0 ? null : pressures.SuctionMinPa,
            BeatsPerMin = rhythm.RatePerMin?.Value,
            Cycles = beats.Count > 0 ? _cycles : null,
            CyclesDurationS = beats.Count > 0 ? beats.Sum(b => b.IntervalS) : null,
            Fittings = [.. _site.Fittings.Select(f => new RatedFitting(f.Name, f.PressureRatingPa))],
        });
    }
}
