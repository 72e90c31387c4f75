using Clackbeat.Hydraulics.Rating;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Flow;
using Clackbeat.Signal.Traces;
using Clackbeat.Site;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Analysis;

/// <summary>
/// From samples to everything a record tells, as a stream: samples go in as they come, in any chunks, and the analysis
/// comes out at the end. Memory follows the number of beats, not of samples.
/// </summary>
public sealed class RamAnalyser
{
    /// <summary>
    /// Least length of a record that tells anything [s]. One beat of a slow ram lasts four seconds; under one second not even a fast
    /// one can be told from a jolt.
    /// </summary>
    public const double ShortestRecordS = 1;

    private const int StepsToLearn = 2048;
    private const double LikelyLeak = 0.25;

    // The detector takes many samples at once in a third of the time.
    private readonly double[] _lotS = new double[1024];
    private readonly double[] _lotPa = new double[1024];
    private int _lot;

    private readonly RamSite _site;
    private readonly Signature? _baseline;
    private readonly IReadOnlyList<EarlierRecord> _earlier;
    private readonly SiteHydraulics _hydraulics;
    private readonly TraceConditioner _conditioner;
    private readonly RecordTally _tally;
    private readonly PictureBuilder _picture = new();
    private readonly PipeJudge _pipe;
    private readonly FlowEstimator? _flow;
    private readonly BeatDetector _detector;
    private readonly List<Beat> _beats = [];
    private readonly (double LowPa, double HighPa) _possible;
    private List<(double TimeS, double PressurePa)>? _head = new(StepsToLearn);
    private double _usualStepS;
    private long _impossible;
    private long _taken;

    /// <summary>Makes an analyser for one record of one ram.</summary>
    /// <param name="site">The ram.</param>
    /// <param name="baseline">The same ram when it was well, to judge changes by; null without such a record.</param>
    /// <param name="earlier">Recordings between the baseline and this one, oldest first, to tell what is growing.</param>
    /// <param name="measuresFlow">Work out the flow, which costs most of the time; without it all that rests on it is withheld.</param>
    public RamAnalyser(
        RamSite site, Signature? baseline = null, IReadOnlyList<EarlierRecord>? earlier = null, bool measuresFlow = true)
    {
        (_site, _baseline, _earlier) = (site, baseline, earlier ?? []);
        _hydraulics = SiteHydraulics.Of(site);
        _tally = new RecordTally(site.Sensor);
        _pipe = new PipeJudge(site);
        _flow = measuresFlow ? new FlowEstimator(site) : null;
        _conditioner = new TraceConditioner(TakeInOrder);
        var scale = new RamScale(
            _hydraulics.PressurePa(site.Supply.HeadM),
            _hydraulics.PressurePa(site.Delivery.HeadM),
            _hydraulics.PipePeriodS);
        _detector = new BeatDetector(scale, TakeBeat);

        // No sensor reads a whole span past its ends; what does is a broken number, not a pressure.
        double spanPa = site.Sensor.RangeHighPa - site.Sensor.RangeLowPa;
        _possible = (site.Sensor.RangeLowPa - spanPa, site.Sensor.RangeHighPa + spanPa);
    }

    /// <summary>Takes samples in the order they were recorded.</summary>
    /// <param name="timesS">Times [s].</param>
    /// <param name="pressuresPa">Gauge pressures [Pa]; same length.</param>
    public void Add(ReadOnlySpan<double> timesS, ReadOnlySpan<double> pressuresPa)
    {
        for (int i = 0; i < timesS.Length; i++)
        {
            _taken++;
            double pressurePa = pressuresPa[i];
            if (pressurePa >= _possible.LowPa && pressurePa <= _possible.HighPa)
            {
                _conditioner.Add(timesS[i], pressurePa);
            }
            else
            {
                _impossible++;
            }
        }
    }

    /// <summary>Ends the record and sums it up.</summary>
    /// <param name="file">Name of the record.</param>
    /// <param name="skippedRows">Rows that held no sample.</param>
    /// <exception cref="InputException">Nothing in the record can be used.</exception>
    public RamAnalysis Finish(string file, long skippedRows = 0)
    {
        _conditioner.Finish();
        LearnStep();
        PassLot();
        RecordCheck.Refuse(file, _taken, _impossible, _tally, _conditioner);
        _detector.Finish();
        double sensorZeroPa = -_hydraulics.PressurePa(_site.Sensor.HeightM);
        double supplyPa = _hydraulics.PressurePa(_site.Supply.HeadM);
        StateJudge judged = _tally.Flat
            ? new StateJudge(RamState.NoSignal, null, "Every sample has the same value: the sensor, its cable or its converter is dead, or the file holds a column that isn't a pressure.")
            : StateJudge.Of(_detector, _beats, _tally.LastS, supplyPa, sensorZeroPa);
        RecordPeak? peak = _beats.Count > 0 ? RecordPeak.Of(_beats, _usualStepS, SiteLoad.ResponseOf(_site.Sensor) ?? SensorAccuracy.UsualResponseS) : null;
        IReadOnlyList<Beat> settled = peak?.Settle(_beats) ?? _beats;
        var limits = new RecordLimits(_site, _hydraulics, _tally, settled, _impossible, judged.Doubt);
        BeatSummary rhythm = Summaries.Rhythm(_beats, _usualStepS);
        PressureSummary pressures = Pressures(judged, supplyPa + sensorZeroPa, peak);
        FlowResult? flow = _beats.Count > 0 ? _flow?.Finish() : null;
        TracePicture picture = _picture.Build(_detector.Samples);
        Signature? signature = new SignatureMaker(_site, _hydraulics).Make(
            _beats, picture.Overlay, _tally.RateHz, _tally.NoisePa, ColumnSigns.Of(_site, _hydraulics, flow));
        DiagnosisOutcome diagnosis = Diagnoser.Judge(new DiagnosisInput(
            _site, _hydraulics, _tally, judged, signature, _baseline, _earlier, picture.Overlay, _beats.Count));
        PipeCheck pipe = _pipe.Judge(_tally, _beats, pressures, rhythm, peak?.HardFromPa, flow?.Flow.ClosingVelocityMPerS);
        return new RamAnalysis
        {
            Input = Input(file, skippedRows),
            State = judged.State,
            Beats = rhythm,
            Pressure = pressures with { PeakCeiling = CeilingOf(pipe) },
            Flow = flow?.Flow ?? new FlowSummary(),
            Efficiency = flow?.Efficiency ?? new EfficiencySummary(),
            DrivePipe = flow?.DrivePipe ?? new DrivePipeSummary { PipePeriodS = _hydraulics.PipePeriodS },
            FoundSupplyHeadM = flow?.FoundSupplyHeadM,
            Energy = flow?.Energy,
            Pipe = pipe,
            Load = _beats.Count > 0 ? _pipe.History(_beats) : null,
            Limits = [.. limits.Sentences(), .. flow?.Limits ?? [], .. LeakLimit(flow, diagnosis), .. diagnosis.Limits],
            BeatList = flow is null ? settled : [.. settled.Select(b => b with { Flow = flow.Beats.GetValueOrDefault(b.Index) })],
            Picture = picture,
            Signature = signature,
            Diagnosis = diagnosis.Findings,
        };
    }

    /// <summary>What runs back from the vessel, or out past a shut plug, never shows in the drive pipe's own flow.</summary>
    private static IEnumerable<string> LeakLimit(FlowResult? flow, DiagnosisOutcome diagnosis)
    {
        if (flow?.Flow.DeliveredM3PerS is null)
        {
            yield break;
        }

        foreach (Finding leak in diagnosis.Findings.Where(f => f.Probability >= LikelyLeak))
        {
            switch (leak.Condition)
            {
                case Conditions.DeliveryValveLeaking:
                    yield return "If the delivery valve leaks, as the beat suggests, less water arrives than the delivered flow says, by a "
                        + "third or more, outside its ±: what runs back can't be seen from the drive pipe.";
                    break;
                case Conditions.WasteValveLeaking:
                    yield return "If the waste valve leaks while shut, as the beat suggests, less water is delivered than the figure says, by "
                        + "a tenth or so, outside its ±.";
                    break;
            }
        }
    }

    private static Figure? CeilingOf(PipeCheck pipe) =>
        pipe.CeilingPa is { } ceilingPa ? new Figure(ceilingPa, pipe.CeilingUncertaintyPa ?? 0) : null;

    private InputSummary Input(string file, long skippedRows) => new()
    {
        File = file,
        DurationS = _tally.DurationS,
        SampleRateHz = _tally.RateHz,
        Samples = _tally.Count,
        Gaps = _tally.Gaps,
        Completeness = RecordCheck.Completeness(skippedRows, _impossible, _conditioner.ClockJumps),
        PartlyUnusable = skippedRows > 0 || _impossible > 0 || _conditioner.ClockJumps > 0 || _tally.Flat,
        ClippedSamples = _tally.ClippedHigh + _tally.ClippedLow,
        RepeatedTimestamps = _conditioner.Repeated,
        UnorderedTimestamps = _conditioner.Unordered,
        SkippedRows = skippedRows + _impossible,
    };

    private PressureSummary Pressures(StateJudge judged, double staticPa, RecordPeak? peak)
    {
        // Only a shut valve shows the pressure at rest; otherwise it follows from the supply head.
        var summary = new PressureSummary
        {
            MeanPa = _tally.MeanPa,
            StaticPa = judged is { State: RamState.StoppedShut, RestPa: { } restPa } ? restPa : staticPa,
        };
        if (_beats.Count == 0)
        {
            return summary;
        }

        double[] peaks = Summaries.Sorted(_beats, b => b.PeakPa);
        Figure delivery = Summaries.Median(_beats, b => b.DeliveryPa);
        return summary with
        {
            Delivery = WithSensor(delivery),
            PeakMedianPa = Summaries.Quantile(peaks, 0.5),
            PeakP95Pa = Summaries.Quantile(peaks, 0.95),
            PeakMaxPa = peaks[^1],
            PeakTrue = peak is { } p ? WithSensor(p.True) : null,
            SuctionMinPa = _beats.Min(b => b.SuctionPa),
        };
    }

    /// <summary>A figure with what the sensor adds to its uncertainty.</summary>
    private Figure WithSensor(Figure pressure)
    {
        double sensorPa = SensorAccuracy.ExpandedPa(_site.Sensor, pressure.Value);
        return pressure with { U = Math.Sqrt((pressure.U * pressure.U) + (sensorPa * sensorPa)) };
    }

    private void TakeInOrder(double timeS, double pressurePa)
    {
        if (_head is null)
        {
            Take(timeS, pressurePa);
            return;
        }

        _head.Add((timeS, pressurePa));
        if (_head.Count == StepsToLearn)
        {
            LearnStep();
        }
    }

    /// <summary>The usual step is known from the first samples; they wait until it is.</summary>
    private void LearnStep()
    {
        if (_head is not { } head)
        {
            return;
        }

        _head = null;
        if (head.Count < 2)
        {
            return;
        }

        double[] steps = [.. head.Zip(head.Skip(1), (a, b) => b.TimeS - a.TimeS)];
        Array.Sort(steps);
        _usualStepS = steps[steps.Length / 2];
        _tally.SetUsualStep(_usualStepS);
        _picture.Start(head[0].TimeS, _usualStepS);
        _pipe.Start([.. head.Select(h => h.PressurePa)]);
        foreach ((double timeS, double pressurePa) in head)
        {
            Take(timeS, pressurePa);
        }
    }

    private void Take(double timeS, double pressurePa)
    {
        _tally.Add(timeS, pressurePa);
        _picture.Add(timeS, pressurePa);
        _pipe.Add(pressurePa);
        (_lotS[_lot], _lotPa[_lot]) = (timeS, pressurePa);
        if (++_lot == _lotS.Length)
        {
            PassLot();
        }
    }

    private void PassLot()
    {
        _detector.Add(_lotS.AsSpan(0, _lot), _lotPa.AsSpan(0, _lot));
        _lot = 0;
    }

    private void TakeBeat(BeatWindow window)
    {
        bool clipped = window.Beat.PeakPa >= _tally.ClipHighPa;
        _beats.Add(window.Beat with { Clipped = clipped });
        _picture.Add(window);
        _flow?.OnBeat(window);
    }
}
