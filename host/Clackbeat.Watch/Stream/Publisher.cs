using Clackbeat.Site.Physics;
using Clackbeat.Watch.Figures;
using Clackbeat.Watch.Live;
using Clackbeat.Watch.Recordings;
using Clackbeat.Watch.Tuning;

namespace Clackbeat.Watch.Stream;

/// <summary>Looks at the pipeline some 25 times a second and tells the pages what is new.</summary>
internal sealed class Publisher
{
    private static readonly TimeSpan Every = TimeSpan.FromMilliseconds(40);
    private static readonly TimeSpan StatusEvery = TimeSpan.FromMilliseconds(500);

    private readonly LivePipeline _pipeline;
    private readonly FigureWorker _worker;
    private readonly RecordingDesk? _desk;
    private readonly (TuningDesk Desk, TrialWatch Watch)? _tuning;
    private readonly EventHub _hub;
    private volatile About _about;
    private readonly Queue<byte[]> _waiting = new();
    private FigureSet? _figures;
    private StatusMessage? _said;
    private DateTimeOffset _saidAt;
    private long _column;
    private int _beat = -1;
    private long _number;

    /// <summary>Makes a publisher.</summary>
    public Publisher(
        LivePipeline pipeline, FigureWorker worker, RecordingDesk? desk, (TuningDesk Desk, TrialWatch Watch)? tuning, EventHub hub,
        LiveSource source, LiveBaseline? baseline, bool mayKeepBaseline = false, bool mayCheck = false)
    {
        (_pipeline, _worker, _desk, _tuning, _hub) = (pipeline, worker, desk, tuning, hub);
        var hydraulics = SiteHydraulics.Of(pipeline.Site);
        _about = new About(
            pipeline.Site.Name, source.Kind, source.Name, pipeline.Site.Units.ToString().ToLowerInvariant(),
            pipeline.Scale.LowPa, pipeline.Scale.StepPa,
            hydraulics.PressurePa(pipeline.Site.Supply.HeadM), hydraulics.PressurePa(pipeline.Site.Delivery.HeadM),
            desk is not null, baseline?.Name)
        {
            Place = pipeline.Site.Place,
            Keeper = pipeline.Site.Keeper,
            SensorLowPa = pipeline.Site.Sensor.RangeLowPa,
            SensorHighPa = pipeline.Site.Sensor.RangeHighPa,
            MayKeepBaseline = mayKeepBaseline,
            MayCheck = mayCheck,
        };
        worker.Made = figures => Post("figures", figures, () => _figures = figures);
        worker.BandMade = band => Post("band", BandMessage.Of(band), () => { });
        pipeline.Marked = mark => Post("mark", mark, () => { });
        if (tuning is { } trials)
        {
            trials.Desk.Changed = () => Post("tuning", TuningMessage.Of(trials.Desk), () => { });
        }
    }

    /// <summary>Sends until asked to stop.</summary>
    public void Run(CancellationToken stop)
    {
        while (!stop.WaitHandle.WaitOne(Every))
        {
            _hub.Send(News);
        }
    }

    /// <summary>Tells that the ram is compared with another baseline from now on.</summary>
    public void TellBaseline(string name)
    {
        About told = _about with { Baseline = name };
        Post("about", told, () => _about = told);
    }

    /// <summary>Adds a page; null when too many listen.</summary>
    public EventHub.Listener? Join() => _hub.Add(Picture);

    private void Post(string name, object data, Action keep)
    {
        byte[] happening = Wire.Event(name, data);
        lock (_waiting)
        {
            keep();
            _waiting.Enqueue(happening);
        }
    }

    private List<byte[]> News()
    {
        List<byte[]> news = [];
        LiveView view = _pipeline.Look(ref _column, ref _beat);
        if (view.Steps.Length > 0)
        {
            news.Add(Wire.Event("trace", Trace(view, ++_number)));
            _column += view.Steps.Length / 2;
        }

        news.AddRange(view.Beats.Select(b => Wire.Event("beat", BeatMessage.Of(b))));
        lock (_waiting)
        {
            while (_waiting.TryDequeue(out byte[]? waiting))
            {
                news.Add(waiting);
            }
        }

        StatusMessage status = Status(view);
        DateTimeOffset now = DateTimeOffset.UtcNow;
        if (now - _saidAt >= StatusEvery || status.State != _said?.State || status.Link != _said?.Link)
        {
            (_said, _saidAt) = (status, now);
            news.Add(Wire.Event("status", status));
        }

        return news;
    }

    private byte[] Picture() => Wire.Event("picture", Whole());

    /// <summary>All of it, to be brought along by the page itself.</summary>
    public PictureMessage Whole()
    {
        // What a page was not yet told comes again with the next news; a page skips columns and beats it has.
        (long column, int beat) = (long.MinValue, -1);
        LiveView view = _pipeline.Look(ref column, ref beat);
        FigureSet? figures;
        lock (_waiting)
        {
            figures = _figures;
        }

        return new PictureMessage(
            _about,
            Trace(view, _number),
            [.. view.Beats.Select(BeatMessage.Of)],
            _worker.Band is { } band ? BandMessage.Of(band) : null,
            figures,
            Status(view),
            _tuning is { } tuning ? TuningMessage.Of(tuning.Desk) : null,
            _pipeline.Marks);
    }

    private static TraceMessage Trace(LiveView view, long number) => new(
        number, view.FirstColumn, view.ColumnS, SignalScale.Text(view.Steps), Math.Round(1000 * view.AgeS));

    private StatusMessage Status(LiveView view) => new(
        view.State,
        view.Link,
        view.RestShare is { } share ? Math.Round(share, 2) : null,
        view.LastClosureS is { } closureS ? Math.Round(view.NewestS - closureS, 1) : null,
        Math.Round(view.AgeS, 1),
        view.Health with { RateHz = view.Health.RateHz is { } hz ? Math.Round(hz, 1) : null, GapS = Math.Round(view.Health.GapS, 2) },
        _desk is null ? null : new DeskMessage(
            _desk.CanRecord && view.Link != LinkState.Asking,
            _desk.Current is { } current ? RecordingMessage.Of(current) : null,
            [.. _desk.All.Where(r => r.IsClosed).Select(RecordingMessage.Of)]),
        _tuning?.Watch.Clock);
}
