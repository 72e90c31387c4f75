using Clackbeat.Hydraulics.Rating;
using Clackbeat.Records.Bursts;
using Clackbeat.Records.Samples;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Signal.States;
using Clackbeat.Site;
using Clackbeat.Site.Check;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Signal.Analysis;

/// <summary>
/// From samples to everything a record tells, as a stream: samples go in as they come, in any chunks, and the analysis
/// comes out at the end. Memory follows the number of beats, not of samples.
/// </summary>
public sealed class RamAnalyser
{
    /// <summary>Least length of a record that tells anything [s].</summary>
    public const double ShortestRecordS = CutBurst.ShortestS;


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
    private readonly StepLearner _step = new();
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
        ConditionModel.ReadAhead(baseline is not null);
        _hydraulics = SiteHydraulics.Of(site);
        _tally = new RecordTally(site.Sensor, site.AtmospherePa);
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
    /// <param name="board">How well the board that took it tells the samples' times; null where nobody measured that.</param>
    /// <exception cref="InputException">Nothing in the record can be used.</exception>
    public RamAnalysis Finish(string file, long skippedRows = 0, BoardTiming? board = null)
    {
        _conditioner.Finish();
        Begin(_step.Finish());
        PassLot();
        RecordCheck.Refuse(file, _taken, _impossible, _tally, _conditioner);
        _detector.Finish();
        double sensorZeroPa = -_hydraulics.PressurePa(_site.Sensor.HeightM);
        double supplyPa = _hydraulics.PressurePa(_site.Supply.HeadM);
        StateJudge judged = _tally.Flat
            ? new StateJudge(RamState.NoSignal, null, Fact.Of("no-signal"))
            : StateJudge.Of(_detector, _beats, _tally.LastS, supplyPa, sensorZeroPa);
        var zero = ZeroCheck.Of(_site, _hydraulics, _tally, _beats, judged);
        RecordPeak? peak = _beats.Count > 0 ? RecordPeak.Of(_beats, _step.StepS, SiteLoad.ResponseOf(_site.Sensor) ?? SensorAccuracy.UsualResponseS) : null;
        IReadOnlyList<Beat> settled = peak?.Settle(_beats) ?? _beats;
        var limits = new RecordLimits(_site, _hydraulics, _tally, settled, _impossible, judged.Doubt, zero);
        IReadOnlyList<Beat> steady = SteadyPart.Of(_beats);
        double instantS = InstantAccuracy.StandardS(board);
        BeatSummary whole = Summaries.Rhythm(_beats, _step.StepS, instantS);
        BeatSummary rhythm = Summaries.Rhythm(steady, _step.StepS, instantS) with
        {
            Count = _beats.Count,
            WholeRatePerMin = whole.RatePerMin,
            Steady = SpanOf(steady),
        };
        FlowResult? flow = _beats.Count > 0 && !zero.IsWrong ? _flow?.Finish(rhythm.Steady) : null;
        var correction = ZeroCorrection.Of(_site.Sensor, flow);
        settled = [.. settled.Select(correction.Of)];
        PressureSummary pressures = Pressures(judged, supplyPa + sensorZeroPa, peak, settled, [.. steady.Select(correction.Of)], correction);
        TracePicture picture = _picture.Build(_detector.Samples);
        Signature? signature = new SignatureMaker(_site, _hydraulics).Make(
            steady, picture.Overlay, _tally.RateHz, _tally.NoisePa, ColumnFeatures.Of(_site, _hydraulics, flow));
        DiagnosisOutcome diagnosis = Diagnoser.Judge(new DiagnosisInput(
            _site, _hydraulics, _tally, judged, zero, signature, _baseline, _earlier, picture.Overlay, _beats.Count));
        Fact? bound = flow?.Flow.DeliveredM3PerS is null
            ? null
            : LeakBound.Reason(diagnosis.Leaks, _baseline is not null, LeakBound.IsCaught(_site, flow));
        if (bound is not null)
        {
            flow = flow! with { Flow = LeakBound.Of(flow.Flow), Efficiency = LeakBound.Of(flow.Efficiency) };
        }

        LastBeats? before = BeforeStop(judged.State, flow);
        PipeCheck pipe = _pipe.Judge(_tally, _beats, pressures, correction, whole, peak?.HardFromPa, flow?.Flow.ClosingVelocityMPerS);
        return new RamAnalysis
        {
            Input = Input(file, skippedRows) with { Board = board },
            State = judged.State,
            Beats = rhythm,
            Pressure = pressures with { PeakCeiling = CeilingOf(pipe) },
            Flow = before is null ? flow?.Flow ?? new FlowSummary() : new FlowSummary(),
            Efficiency = before is null ? flow?.Efficiency ?? new EfficiencySummary() : new EfficiencySummary(),
            WhileBeating = before,
            DrivePipe = flow?.DrivePipe ?? new DrivePipeSummary { PipePeriodS = _hydraulics.PipePeriodS },
            FoundSupplyHeadM = flow?.FoundSupplyHeadM,
            Energy = flow?.Energy,
            Column = flow?.Features,
            Zero = zero,
            Pipe = pipe,
            Load = _beats.Count > 0 ? _pipe.History(_beats) : null,
            Findings = [.. correction.Said is { } said ? [said] : Array.Empty<Fact>(), .. SteadyFact(rhythm), .. flow?.Findings ?? [],
                .. BeatRemarks.Of(_beats, steady, _tally.LastS - _tally.DurationS, signature, _baseline, _hydraulics, supplyPa)],
            Limits = [.. limits.All(), .. flow?.Limits ?? [], .. bound is null ? [] : (Fact[])[bound], .. diagnosis.Limits],
            BeatList = flow is null ? settled : [.. settled.Select(b => b with { Flow = flow.Beats.GetValueOrDefault(b.Index) })],
            Picture = picture,
            Signature = signature,
            Diagnosis = [.. diagnosis.Findings.Select(f => Beside(pipe, f))],
            Judged = diagnosis.Judged,
        };
    }

    // "Nothing needs doing" may not stand beside a pipe that may burst or is worn out.
    private static Finding Beside(PipeCheck pipe, Finding finding) =>
        finding.Condition == Conditions.Healthy
        && (pipe.Verdict is PipeVerdict.Near or PipeVerdict.Over || pipe.FatigueVerdict == PipeVerdict.Over)
            ? finding with { Advice = Fact.Of("advice.healthy-beside-pipe") }
            : finding;

    /// <summary>What the beats before a stop told, for a ram that has stopped; nothing flows now.</summary>
    private LastBeats? BeforeStop(RamState state, FlowResult? flow) =>
        state is RamState.StoppedShut or RamState.StoppedOpen && flow is not null
            ? new LastBeats(_beats[0].ClosureS, _beats[^1].ClosureS + _beats[^1].IntervalS, flow.Flow, flow.Efficiency)
            : null;

    // Told only where something was left out.
    private IEnumerable<Fact> SteadyFact(BeatSummary rhythm) =>
        rhythm is { Steady: { } steady, WholeRatePerMin: { } whole } && steady.Beats < rhythm.Count
            ? [Fact.Of(
                "steady-part",
                ("from_s", steady.FromS - _tally.LastS + _tally.DurationS), ("until_s", steady.UntilS - _tally.LastS + _tally.DurationS),
                ("beats", steady.Beats), ("beats_left_out", rhythm.Count - steady.Beats), ("whole_rate_per_min", whole.Value))]
            : [];

    private static SteadySpan? SpanOf(IReadOnlyList<Beat> beats) =>
        beats.Count > 0 ? new SteadySpan(beats[0].ClosureS, beats[^1].ClosureS + beats[^1].IntervalS, beats.Count) : null;

    private static Figure? CeilingOf(PipeCheck pipe) =>
        pipe.CeilingPa is { } ceilingPa ? new Figure(ceilingPa, pipe.CeilingUncertaintyPa ?? 0) : null;

    private InputSummary Input(string file, long skippedRows)
    {
        IReadOnlyList<Fact> losses = RecordCheck.Losses(skippedRows, _impossible, _conditioner.ClockJumps);
        return new InputSummary
        {
            File = file,
            DurationS = _tally.DurationS,
            StartS = _tally.LastS - _tally.DurationS,
            SampleRateHz = _tally.RateHz,
            Samples = _tally.Count,
            Gaps = _tally.Gaps,
            Losses = losses,
            PartlyUnusable = losses.Count > 0 || _tally.Flat,
            ClippedSamples = _tally.ClippedHigh + _tally.ClippedLow,
            RepeatedTimestamps = _conditioner.Repeated,
            UnorderedTimestamps = _conditioner.Unordered,
            SkippedRows = skippedRows + _impossible,
        };
    }

    private PressureSummary Pressures(
        StateJudge judged, double staticPa, RecordPeak? peak, IReadOnlyList<Beat> beats, IReadOnlyList<Beat> steady, ZeroCorrection correction)
    {
        // Only a shut valve shows the pressure at rest; otherwise it follows from the supply head.
        var summary = new PressureSummary
        {
            MeanPa = correction.Of(_tally.MeanPa),
            StaticPa = judged is { State: RamState.StoppedShut, RestPa: { } restPa } ? correction.Of(restPa) : staticPa,
            StaticIsMeasured = judged is { State: RamState.StoppedShut, RestPa: not null },
        };
        if (beats.Count == 0)
        {
            return summary;
        }

        // What a pipe has borne counts wherever it was; what the ram does is read where it goes steadily.
        double[] peaks = Summaries.Sorted(beats, b => b.PeakPa);
        double deliveryPa = Summaries.Median(steady, b => b.DeliveryPa);
        return summary with
        {
            Delivery = Summaries.Median(
                steady, b => b.DeliveryPa, SensorAccuracy.StandardPa(_site.Sensor, deliveryPa), correction.StandardPa),
            PeakMedianPa = Summaries.Quantile(peaks, 0.5),
            PeakP95Pa = Summaries.Quantile(peaks, 0.95),
            PeakMaxPa = peaks[^1],
            PeakTrue = peak is { } p ? TruePeak(p.MiddlePa - correction.ShiftPa, p.HalfWidthPa, correction) : null,
            SuctionMinPa = beats.Min(b => b.SuctionPa),
        };
    }

    // What samples and sensor hide is a bound, and the peak is as likely anywhere within it.
    private Figure TruePeak(double middlePa, double halfWidthPa, ZeroCorrection correction) => Expanded.Of(
        middlePa, 0, double.PositiveInfinity,
        Expanded.OfBound(halfWidthPa), SensorAccuracy.StandardPa(_site.Sensor, middlePa), correction.StandardPa);

    // The usual step is known from the first samples; they wait until it is.
    private void TakeInOrder(double timeS, double pressurePa)
    {
        if (_step.IsKnown)
        {
            Take(timeS, pressurePa);
        }
        else if (_step.Add(new Sample(timeS, pressurePa)) is { } head)
        {
            Begin(head);
        }
    }

    private void Begin(IReadOnlyList<Sample> head)
    {
        if (head.Count < 2)
        {
            return;
        }

        _tally.SetUsualStep(_step.StepS);
        _picture.Start(head[0].TimeS, _step.StepS);
        _pipe.Start([.. head.Select(h => h.PressurePa)]);
        foreach (Sample sample in head)
        {
            Take(sample.TimeS, sample.PressurePa);
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
