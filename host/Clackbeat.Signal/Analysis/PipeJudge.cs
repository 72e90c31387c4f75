using Clackbeat.Hydraulics.Fatigue;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.States;
using Clackbeat.Site.Check;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Signal.Analysis;

/// <summary>Counts the load cycles of a record as it streams past and holds the drive pipe against its rating at the end.</summary>
internal sealed class PipeJudge
{
    // A hundredth of a bar is far under any load that tires a pipe, and bounds the counter's memory.
    private const double ResolutionPa = 1000;

    private const int Cells = 400;

    // White noise seldom swings by more than six deviations from one sample to another.
    private const double NoiseSwings = 6;

    // By the shallowest curve in use (Bowman's, power 3.35) a swing of a tenth does a 2000th of the harm: noise, however
    // bad, never hides more than that.
    private const double MostHiddenShare = 0.1;

    private readonly RamSite _site;
    private readonly RainflowHistogram _cycles;
    private readonly long[] _levels = new long[Cells];
    private readonly double _lowPa;
    private readonly double _levelPa;
    private RainflowCounter? _counter;
    private double _noisePa;
    private double _hysteresisPa;

    /// <summary>Makes a judge for one record.</summary>
    public PipeJudge(RamSite site)
    {
        _site = site;
        // Nothing in a ram is below a full vacuum; converters read a little past the sensor's upper end.
        _lowPa = Math.Min(site.Sensor.RangeLowPa, -110e3);
        double highPa = site.Sensor.RangeHighPa + (0.15 * (site.Sensor.RangeHighPa - site.Sensor.RangeLowPa));
        _levelPa = (highPa - _lowPa) / Cells;
        _cycles = new RainflowHistogram(_lowPa, highPa, Cells);
    }

    /// <summary>Learns the noise from a record's first samples [Pa gauge], which still have to be added.</summary>
    public void Start(ReadOnlySpan<double> firstPa)
    {
        _noisePa = SampleNoise.Of(firstPa);
        double deliveryPa = SiteHydraulics.Of(_site).PressurePa(_site.Delivery.HeadM);
        _hysteresisPa = Math.Max(ResolutionPa, Math.Min(NoiseSwings * _noisePa, MostHiddenShare * deliveryPa));
        _counter = new RainflowCounter(_cycles.Add, ResolutionPa, hysteresis: _hysteresisPa);
    }

    /// <summary>Takes the next sample [Pa gauge].</summary>
    public void Add(double pressurePa)
    {
        _counter!.Add(pressurePa);
        _levels[(int)Math.Clamp((pressurePa - _lowPa) / _levelPa, 0, Cells - 1)]++;
    }

    /// <summary>The verdict; unknown while no beat was seen.</summary>
    /// <param name="tally">The record.</param>
    /// <param name="beats">Its beats.</param>
    /// <param name="pressures">Its pressures.</param>
    /// <param name="correction">What was taken out of them.</param>
    /// <param name="rhythm">Its rhythm.</param>
    /// <param name="hardFromPa">Largest samples from here on may belong to hard beats [Pa].</param>
    /// <param name="closingVelocity">Closing velocity [m/s]; null takes the one expected of such a ram.</param>
    public PipeCheck Judge(
        RecordTally tally, IReadOnlyList<Beat> beats, PressureSummary pressures, ZeroCorrection correction, BeatSummary rhythm, double? hardFromPa, Figure? closingVelocity)
    {
        _counter?.Finish();
        return PipeRating.Check(SiteLoad.Of(_site, closingVelocity?.Value, closingVelocity?.U) with
        {
            PeakPa = pressures.PeakTrue?.Value,
            PeakUncertaintyPa = pressures.PeakTrue?.U,
            Clipped = tally.ClippedHigh > 0,
            SampleRateHz = tally.RateHz,
            MeanPa = pressures.MeanPa,
            TroughPa = tally.ClippedLow > 0 ? null : pressures.SuctionMinPa,
            TroughUncertaintyPa = Expanded.Of(
                0, 0, double.PositiveInfinity,
                SensorAccuracy.StandardPa(_site.Sensor, pressures.SuctionMinPa ?? 0), correction.StandardPa).U,
            BeatsPerMin = rhythm.RatePerMin?.Value,
            Cycles = beats.Count > 0 ? _cycles : null,
            CyclesDurationS = beats.Count > 0 ? beats.Sum(b => b.IntervalS) : null,
            CyclesPeakPa = hardFromPa,
        });
    }

    /// <summary>What the pipe has met, for pictures.</summary>
    public LoadHistory History(IReadOnlyList<Beat> beats) => new()
    {
        Cycles = _cycles,
        BeatingS = beats.Sum(b => b.IntervalS),
        LowPa = _lowPa,
        LevelPa = _levelPa,
        SamplesAtLevel = _levels,
        NoisePa = _noisePa,
        HysteresisPa = _hysteresisPa,
    };
}
