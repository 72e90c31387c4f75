using Clackbeat.Records.Samples;
using Clackbeat.Signal.Beats;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Watch.Live;

/// <summary>
/// The way of live samples: into the columns of the trace, the beat detector that serves whole records too, and the
/// watch for a standstill. Memory is bounded by a minute of samples, whatever the length of the watch. One thread feeds
/// it; others read under the same lock, shortly.
/// </summary>
public sealed class LivePipeline
{
    /// <summary>Length of the window from which figures are made [s].</summary>
    public const double WindowS = 60;

    private const int KeptBeats = 12;
    private const int KeptMarks = 12;

    private readonly Lock _gate = new();
    private readonly BeatDetector _detector;
    private readonly StandstillWatch _standstill;
    private readonly HealthMeter _health;
    private readonly List<LiveBeat> _beats = [];
    private readonly Queue<LiveMark> _marks = new();
    private readonly TimeProvider _time;
    private readonly StepLearner _step = new();
    private TraceStrip? _strip;
    private LiveState _state = LiveState.Waiting;
    private double _newestS = double.NegativeInfinity;
    private double _windowFromS = double.NegativeInfinity;
    private long _newestAt;

    /// <summary>Makes a pipeline for one ram.</summary>
    /// <param name="site">The ram.</param>
    /// <param name="time">The host's clocks.</param>
    public LivePipeline(RamSite site, TimeProvider time)
    {
        _time = time;
        Site = site;
        var hydraulics = SiteHydraulics.Of(site);
        double supplyPa = hydraulics.PressurePa(site.Supply.HeadM);
        Scale = SignalScale.For(site.Sensor);
        _standstill = new StandstillWatch(supplyPa, -hydraulics.PressurePa(site.Sensor.HeightM));
        _health = new HealthMeter(site.Sensor);
        _detector = new BeatDetector(
            new RamScale(supplyPa, hydraulics.PressurePa(site.Delivery.HeadM), hydraulics.PipePeriodS), TakeBeat);
    }

    /// <summary>The ram.</summary>
    public RamSite Site { get; }

    /// <summary>Pressures as steps on the way to the page.</summary>
    public SignalScale Scale { get; }

    /// <summary>Takes samples as they come. A time that doesn't rise is left out.</summary>
    /// <param name="timesS">Times since any fixed instant [s].</param>
    /// <param name="pressuresPa">Gauge pressures [Pa]; same length.</param>
    public void Take(ReadOnlySpan<double> timesS, ReadOnlySpan<double> pressuresPa)
    {
        lock (_gate)
        {
            for (int i = 0; i < timesS.Length; i++)
            {
                if (timesS[i] > _newestS)
                {
                    _newestS = timesS[i];
                    Take(timesS[i], pressuresPa[i]);
                    Sampled?.Invoke(timesS[i], pressuresPa[i]);
                }
            }

            _newestAt = _time.GetTimestamp();
            Judge();
        }
    }

    /// <summary>Tells where the samples stand, in words for the terminal.</summary>
    public void Tell(LinkState link, string words)
    {
        lock (_gate)
        {
            (Link, LinkWords) = (link, words);
        }

        Told?.Invoke(link, words);
    }

    /// <summary>Tells what the source has counted since it began.</summary>
    public void Count(SourceCounts counts)
    {
        lock (_gate)
        {
            _health.Counts = counts;
        }
    }

    /// <summary>Something at the ram was changed: figures begin anew from here, so that old beats don't blur them.</summary>
    public void BeginWindow()
    {
        lock (_gate)
        {
            _windowFromS = _newestS;
        }
    }

    /// <summary>Something at the ram was changed, and this is what: a flag on the trace, and figures begin anew.</summary>
    public void Mark(string words)
    {
        LiveMark mark;
        lock (_gate)
        {
            if (double.IsNegativeInfinity(_newestS))
            {
                return;
            }

            _windowFromS = _newestS;
            mark = new LiveMark(_newestS, words);
            _marks.Enqueue(mark);
            if (_marks.Count > KeptMarks)
            {
                _marks.Dequeue();
            }
        }

        Marked?.Invoke(mark);
    }

    /// <summary>Told of each sample, on the source's thread.</summary>
    internal Action<double, double>? Sampled { get; set; }

    /// <summary>Told of each mark.</summary>
    internal Action<LiveMark>? Marked { get; set; }

    /// <summary>The newest marks.</summary>
    internal IReadOnlyList<LiveMark> Marks
    {
        get
        {
            lock (_gate)
            {
                return [.. _marks];
            }
        }
    }

    /// <summary>Told of each change of the link.</summary>
    internal Action<LinkState, string>? Told { get; set; }

    /// <summary>What the ram is doing now.</summary>
    internal LiveState State
    {
        get
        {
            lock (_gate)
            {
                return _state;
            }
        }
    }

    internal LinkState Link { get; private set; } = LinkState.Asking;

    internal string LinkWords { get; private set; } = "";

    /// <summary>Copies what a page is to be told.</summary>
    internal LiveView Look(ref long column, ref int beat)
    {
        lock (_gate)
        {
            short[] steps = _strip?.From(ref column) ?? [];
            int after = beat;
            LiveBeat[] beats = [.. _beats.Where(b => b.Number > after)];
            beat = beats.Length > 0 ? beats[^1].Number : beat;
            return new LiveView
            {
                State = _state,
                Link = Link,
                RestShare = _standstill.RestShare,
                Health = _health.Read(_detector.Samples),
                FirstColumn = column,
                ColumnS = _strip?.ColumnS ?? 0,
                Steps = steps,
                Beats = beats,
                NewestS = _newestS,
                LastClosureS = _detector.LastClosureS,
                AgeS = _strip is null ? 0 : _time.GetElapsedTime(_newestAt).TotalSeconds,
            };
        }
    }

    /// <summary>Copies the samples after an instant to the end of two lists, as far as they are still held.</summary>
    internal void Copy(double afterS, List<double> timesS, List<double> pressuresPa)
    {
        lock (_gate)
        {
            long from = _detector.Samples.FirstAtOrAfter(Math.BitIncrement(afterS));
            timesS.AddRange(_detector.Samples.TimesS(from, _detector.Samples.End));
            pressuresPa.AddRange(_detector.Samples.PressuresPa(from, _detector.Samples.End));
        }
    }

    /// <summary>Copies the samples of the window, from which figures are made.</summary>
    internal LiveWindow Window()
    {
        lock (_gate)
        {
            double fromS = Math.Max(_windowFromS, _newestS - WindowS);
            long from = _detector.Samples.FirstAtOrAfter(fromS);
            return new LiveWindow(
                _state,
                _windowFromS,
                _detector.Samples.TimesS(from, _detector.Samples.End).ToArray(),
                _detector.Samples.PressuresPa(from, _detector.Samples.End).ToArray());
        }
    }

    private void Take(double timeS, double pressurePa)
    {
        if (!_step.IsKnown)
        {
            if (_step.Add(new Sample(timeS, pressurePa)) is { } head)
            {
                Begin(head);
            }

            return;
        }

        _strip!.Add(timeS, pressurePa);
        _health.Add(timeS, pressurePa);
        _standstill.Add(timeS, pressurePa);
        _detector.Add(timeS, pressurePa);
    }

    private void Begin(IReadOnlyList<Sample> head)
    {
        _strip = new TraceStrip(Scale, _step.StepS);
        _health.SetStep(_step.StepS);
        foreach (Sample sample in head)
        {
            Take(sample.TimeS, sample.PressurePa);
        }
    }

    private void Judge()
    {
        if (!_step.IsKnown)
        {
            return;
        }

        LiveState before = _state;
        _state = _standstill.Judge(_detector.LastClosureS, _detector.Samples);
        if (_state == LiveState.Beating && before is LiveState.StoppedOpen or LiveState.StoppedShut or LiveState.NoSignal)
        {
            // The figures of a ram that was started again are of its new beats alone.
            _windowFromS = (_detector.LastClosureS ?? _newestS) - 1;
        }
    }

    private void TakeBeat(BeatWindow window)
    {
        _standstill.Add(window.Beat);
        _beats.Add(LiveBeat.Of(window, Scale));
        if (_beats.Count > KeptBeats)
        {
            _beats.RemoveAt(0);
        }
    }
}
