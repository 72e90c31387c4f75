using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Flow;
using Clackbeat.Site;
using Clackbeat.Site.Physics;
using Clackbeat.Watch.Live;

namespace Clackbeat.Watch.Figures;

/// <summary>
/// Makes the figures anew from the newest minute, again and again, on a thread of its own: the samples never wait for
/// it. Flow costs ten times what all the rest does and is worked out less often, from thinner samples. What a round costs
/// decides when the next begins, so that the processor's share stays small on any machine.
/// </summary>
internal sealed class FigureWorker
{
    private const double LeastWindowS = 5;

    // With the rests below, the rounds take some 4 % and 5 % of one core.
    private const double RestPerRound = 25;
    private const double RestPerFlow = 20;

    // The method of the flow was tried at this rate; more samples cost time and hardly sharpen it.
    private const double FlowRateHz = 1000;
    private const double LeastPerPipePeriod = 20;

    // A band needs beats enough to show their own scatter, and all of them well.
    private const double BandWindowS = 50;
    private const double BandProbability = 0.5;

    private static readonly TimeSpan LeastRest = TimeSpan.FromSeconds(2);
    private static readonly TimeSpan PollInterval = TimeSpan.FromMilliseconds(200);

    private readonly LivePipeline _pipeline;
    private volatile LiveBaseline? _baseline;
    private volatile FigureMaker _maker;
    private readonly double _flowRateHz;
    private FlowPart? _flow;
    private FigureSet? _beating;
    private double _lastEndS = double.NegativeInfinity;
    private long _roundDue;
    private long _flowDue;

    /// <summary>Makes a worker.</summary>
    public FigureWorker(LivePipeline pipeline, LiveBaseline? baseline)
    {
        (_pipeline, _baseline) = (pipeline, baseline);
        _maker = new FigureMaker(pipeline.Site, baseline);
        _flowRateHz = Math.Max(FlowRateHz, LeastPerPipePeriod / SiteHydraulics.Of(pipeline.Site).PipePeriodS);
        Band = baseline is null ? null : BaselineBand.Of(baseline.Analysis, pipeline.Scale, isGiven: true);
    }

    /// <summary>Told of new figures, on this worker's thread.</summary>
    public Action<FigureSet>? Made { get; set; }

    /// <summary>Told when there is a band.</summary>
    public Action<BaselineBand>? BandMade { get; set; }

    /// <summary>The healthy beat; null until one was seen.</summary>
    public BaselineBand? Band { get; private set; }

    /// <summary>Works until asked to stop.</summary>
    public void Run(CancellationToken stop)
    {
        LiveState seen = _pipeline.State;
        while (!stop.WaitHandle.WaitOne(PollInterval))
        {
            LiveState state = _pipeline.State;
            if (state != seen || TimeProvider.System.GetTimestamp() >= _roundDue)
            {
                seen = state;
                Round();
            }
        }
    }

    /// <summary>Makes the newest minute the ram when it was well: what follows is compared with it.</summary>
    /// <param name="isWell">The keeper says that it is well, whatever it looks like.</param>
    /// <param name="save">Keeps the minute's times [s] and gauge pressures [Pa]; gives the name of the file.</param>
    /// <returns>What the minute lacks, or the name.</returns>
    public (BaselineLack? Lack, string? Name) Adopt(bool isWell, Func<double[], double[], string> save)
    {
        LiveWindow window = _pipeline.Window();
        if (Analyse(window, withFlow: true) is not { } analysis)
        {
            return (BaselineLack.Beats, null);
        }

        if (BaselineRules.Lack(analysis, isWell) is { } lack)
        {
            return (lack, null);
        }

        string name = save(window.TimesS, window.PressuresPa);
        var baseline = new LiveBaseline(analysis.AsWell(), name);
        (_baseline, _maker) = (baseline, new FigureMaker(_pipeline.Site, baseline));
        if (BaselineBand.Of(analysis, _pipeline.Scale, isGiven: true) is { } band)
        {
            Band = band;
            BandMade?.Invoke(band);
        }

        return (null, name);
    }

    /// <summary>The newest minute as a whole record; null where it holds nothing.</summary>
    public RamAnalysis? Whole() => Analyse(_pipeline.Window(), withFlow: true);

    /// <summary>One round.</summary>
    internal void Round()
    {
        LiveWindow window = _pipeline.Window();
        if (window.SpanS < LeastWindowS || window.TimesS[^1] <= _lastEndS)
        {
            return;
        }

        _lastEndS = window.TimesS[^1];
        (RamAnalysis? analysis, _roundDue) = Timed(() => Analyse(window, withFlow: false), RestPerRound, LeastRest);
        if (analysis is null)
        {
            return;
        }

        bool stands = window.State is not (LiveState.Beating or LiveState.Listening);
        if (!stands && TimeProvider.System.GetTimestamp() >= _flowDue)
        {
            (RamAnalysis? thin, _flowDue) = Timed(() => Analyse(window.Thinned(_flowRateHz), withFlow: true), RestPerFlow, LeastRest);
            _flow = thin is null ? null : new FlowPart(window.BeganS, thin.Flow, thin.Efficiency, thin.Diagnosis);
        }

        Tell(window, stands, analysis);
    }

    private void Tell(LiveWindow window, bool stands, RamAnalysis analysis)
    {
        if (_flow is { } flow && flow.BeganS.Equals(window.BeganS))
        {
            analysis = analysis with { Flow = flow.Flow, Efficiency = flow.Efficiency, Diagnosis = stands ? analysis.Diagnosis : flow.Diagnosis };
        }

        FigureSet figures = _maker.Make(analysis, window.State);
        if (!stands)
        {
            _beating = figures;
            KeepBand(analysis);
        }

        // A ram that stands still delivers nothing; what it did before is shown as such.
        Made?.Invoke(stands && _beating is { } before ? before with { IsBefore = true, Standing = figures.Standing, ToDo = figures.ToDo, Findings = figures.Findings } : figures);
    }

    private RamAnalysis? Analyse(LiveWindow window, bool withFlow)
    {
        try
        {
            var analyser = new RamAnalyser(_pipeline.Site, _baseline?.Signature, measuresFlow: withFlow);
            analyser.Add(window.TimesS, window.PressuresPa);
            return analyser.Finish("live");
        }
        catch (InputException)
        {
            // A window in which nothing can be used yields no figures; health and state say why.
            return null;
        }
    }

    private void KeepBand(RamAnalysis analysis)
    {
        if (Band is null && analysis.Input.DurationS >= BandWindowS
            && analysis.Diagnosis is [{ Condition: "healthy", Probability: >= BandProbability }, ..]
            && BaselineBand.Of(analysis, _pipeline.Scale, isGiven: false) is { } band)
        {
            Band = band;
            BandMade?.Invoke(band);
        }
    }

    private static (RamAnalysis? Made, long Due) Timed(Func<RamAnalysis?> work, double restPerWork, TimeSpan least)
    {
        long began = TimeProvider.System.GetTimestamp();
        RamAnalysis? made = work();
        long now = TimeProvider.System.GetTimestamp();
        double restS = Math.Max(least.TotalSeconds, restPerWork * TimeProvider.System.GetElapsedTime(began, now).TotalSeconds);
        return (made, now + (long)(restS * TimeProvider.System.TimestampFrequency));
    }

    /// <summary>
    /// What the flow was and what was judged by it, and of which window: one that began before a change says nothing of what follows.
    /// </summary>
    private sealed record FlowPart(double BeganS, FlowSummary Flow, EfficiencySummary Efficiency, IReadOnlyList<Finding> Diagnosis);
}
