using Clackbeat.Signal.Analysis;
using Clackbeat.Site;
using Clackbeat.Watch.Live;

namespace Clackbeat.Watch.Figures;

/// <summary>
/// Makes the figures anew from the newest minute, again and again, on a thread of its own: the samples never wait for
/// it. What one round costs decides when the next begins, so that the processor's share stays small on any machine.
/// </summary>
internal sealed class FigureWorker
{
    private const double LeastWindowS = 5;

    // A round that takes a tenth of a second is followed by so many times its length of rest.
    private const double RestPerWork = 14;

    // A band needs beats enough to show their own scatter, and all of them well.
    private const double BandWindowS = 50;
    private const double BandProbability = 0.5;

    private static readonly TimeSpan LeastRest = TimeSpan.FromSeconds(1.5);
    private static readonly TimeSpan Glance = TimeSpan.FromMilliseconds(200);

    private readonly LivePipeline _pipeline;
    private readonly LiveBaseline? _baseline;
    private readonly FigureMaker _maker;
    private FigureSet? _beating;
    private double _lastEndS = double.NegativeInfinity;

    /// <summary>Makes a worker.</summary>
    public FigureWorker(LivePipeline pipeline, LiveBaseline? baseline)
    {
        (_pipeline, _baseline) = (pipeline, baseline);
        _maker = new FigureMaker(pipeline.Site, baseline);
        Band = baseline is null ? null : BaselineBand.Of(baseline.Analysis, pipeline.Scale, isGiven: true);
    }

    /// <summary>Told of new figures, on this worker's thread.</summary>
    public Action<FigureSet>? Made { get; set; }

    /// <summary>Told when there is a band.</summary>
    public Action<BaselineBand>? BandMade { get; set; }

    /// <summary>The healthy beat; null until one was seen.</summary>
    public BaselineBand? Band { get; private set; }

    /// <summary>The newest whole analysis, for a report of the last minute; null before the first.</summary>
    public RamAnalysis? Newest { get; private set; }

    /// <summary>Works until asked to stop.</summary>
    public void Run(CancellationToken stop)
    {
        TimeSpan rest = Glance;
        while (!stop.WaitHandle.WaitOne(rest))
        {
            long began = TimeProvider.System.GetTimestamp();
            rest = Round()
                ? Longer(LeastRest, RestPerWork * TimeProvider.System.GetElapsedTime(began))
                : Glance;
        }
    }

    /// <summary>One round; false when there was nothing to do yet.</summary>
    internal bool Round()
    {
        LiveWindow window = _pipeline.Window();
        if (window.SpanS < LeastWindowS || window.TimesS[^1] <= _lastEndS)
        {
            return false;
        }

        _lastEndS = window.TimesS[^1];
        if (Analyse(window) is not { } analysis)
        {
            return true;
        }

        Newest = analysis;
        FigureSet figures = _maker.Make(analysis);
        bool stands = window.State is not (LiveState.Beating or LiveState.Listening);
        if (!stands)
        {
            _beating = figures;
            KeepBand(analysis);
        }

        // A ram that stands still delivers nothing; what it did before is shown as such.
        Made?.Invoke(stands && _beating is { } before ? before with { IsBefore = true, Findings = figures.Findings } : figures);
        return true;
    }

    private RamAnalysis? Analyse(LiveWindow window)
    {
        try
        {
            var analyser = new RamAnalyser(_pipeline.Site, _baseline?.Signature);
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

    private static TimeSpan Longer(TimeSpan a, TimeSpan b) => a > b ? a : b;
}
