using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.Tuning.Trials;
using Clackbeat.Tuning.Twins;
using Clackbeat.Watch.Live;
using Clackbeat.Watch.Recordings;

namespace Clackbeat.Watch.Tuning;

/// <summary>
/// Watches the ram while a trial is made, on a thread of its own: waits until it has settled, gathers the samples of the
/// trial, and works its figures out. A trial goes into a recording too, where a logger is there to record from.
/// </summary>
internal sealed class TrialWatch(TuningDesk desk, RamSite site, LivePipeline pipeline, RecordingDesk? recordings, TuningPace pace)
{
    // A hole of a second may hide a beat, and with it whether the ram ran at all.
    private const double LongestGapS = 1;

    // So long after its last beat a ram that stands will not go on by itself.
    private const double SureStoppedS = 8;

    private const int LooksPerFile = 10;
    private static readonly TimeSpan PollInterval = TimeSpan.FromMilliseconds(100);

    private readonly List<double> _timesS = [];
    private readonly List<double> _pressuresPa = [];
    private Settling _settling = new(pace, 0);
    private int _run = -1;
    private int _beat = -1;
    private double? _standstillS;
    private double _fromS = double.NaN;
    private string _note = "";
    private bool _isOwnRecording;
    private int _looks;

    /// <summary>How far the step has come; null where nothing is waited for.</summary>
    public TuningClock? Clock { get; private set; }

    /// <summary>Watches until asked to stop.</summary>
    public void Run(CancellationToken stop)
    {
        while (!stop.WaitHandle.WaitOne(PollInterval))
        {
            Step();
        }

        EndRecording();
    }

    /// <summary>One look.</summary>
    internal void Step()
    {
        TuningState state = desk.State;
        if (state.Run != _run)
        {
            BeginRun(state);
        }

        switch (state.Phase)
        {
            case TuningPhase.Settle:
                Settle(state);
                break;
            case TuningPhase.Record:
                Record(state);
                break;
            case TuningPhase.Read:
                Read(state);
                break;
            default:
                Forget();
                if (++_looks % LooksPerFile == 0)
                {
                    desk.LookAtFile();
                }

                break;
        }
    }

    private void BeginRun(TuningState state)
    {
        Forget();
        _run = state.Run;
        _settling = new Settling(pace, state.WasTurned ? pace.SettleS : 0);
        _beat = Look(int.MinValue).Beats is [.., { } newest] ? newest.Number : -1;
        _standstillS = null;
    }

    private void Settle(TuningState state)
    {
        Forget();
        LiveView view = Look(_beat);
        _beat = view.Beats is [.., { } newest] ? newest.Number : _beat;
        if (view.Link != LinkState.Streaming)
        {
            // Who is cut off sees nothing settle; it begins again with the samples.
            _settling = new Settling(pace, pace.SettleS);
        }
        else
        {
            _settling.Look(view);
        }

        Clock = ClockOf(view, pace.TrialS);
        if (_settling.IsSettled)
        {
            desk.Settled(state.Run);
        }
    }

    private void Record(TuningState state)
    {
        LiveView view = Look(int.MaxValue);
        if (double.IsNaN(_fromS))
        {
            _fromS = view.NewestS;
            BeginRecording(state);
        }

        int before = _timesS.Count;
        pipeline.Copy(before > 0 ? _timesS[^1] : _fromS, _timesS, _pressuresPa);
        if (view.Link != LinkState.Streaming || HasHole(Math.Max(0, before - 1)))
        {
            desk.BrokenOff(state.Run, "link");
            return;
        }

        double lengthS = _timesS.Count > 0 ? _timesS[^1] - _fromS : 0;
        Clock = ClockOf(view, Math.Max(0, pace.TrialS - lengthS));
        if (lengthS >= pace.TrialS || Clock.StandsS >= SureStoppedS)
        {
            EndRecording();
            desk.Recorded(state.Run);
        }
    }

    private void Read(TuningState state)
    {
        Clock = null;
        LiveState standing = pipeline.State;
        var reader = new TrialReader(site);
        Trial trial;
        try
        {
            reader.Add(_timesS.ToArray(), _pressuresPa.ToArray());
            trial = reader.Finish(state.Setting!.Value, _note);
            if (pace.FitsTwin)
            {
                trial = TrialTwin.Of(state.Session!, site, reader.Analysis!, trial);
            }
        }
        catch (InputException)
        {
            trial = TrialReader.Stood(state.Setting!.Value, TrialLack.NoSignal, _note);
        }

        // A ram that stopped at the very end delivered before; that it stopped counts for more.
        TrialLack? stopped = standing switch
        {
            LiveState.StoppedOpen => TrialLack.StoppedOpen,
            LiveState.StoppedShut => TrialLack.StoppedShut,
            LiveState.NoSignal => TrialLack.NoSignal,
            _ => null,
        };
        desk.Judged(state.Run, trial.Works && stopped is { } lack ? TrialReader.Stood(trial.Setting, lack, _note) : trial);
        Forget();
    }

    private bool HasHole(int from)
    {
        for (int i = from + 1; i < _timesS.Count; i++)
        {
            if (_timesS[i] - _timesS[i - 1] > LongestGapS)
            {
                return true;
            }
        }

        return false;
    }

    private TuningClock ClockOf(LiveView view, double leftS)
    {
        bool stands = view.State is LiveState.StoppedOpen or LiveState.StoppedShut or LiveState.NoSignal;
        _standstillS = stands ? _standstillS ?? view.NewestS : null;
        return new TuningClock(
            Math.Round(_settling.BeatingS, 1), _settling.NeedsS, Math.Round(view.NewestS - (_standstillS ?? view.NewestS), 1),
            Math.Round(leftS, 1), pace.TrialS);
    }

    private LiveView Look(int afterBeat)
    {
        long column = long.MaxValue - 1;
        return pipeline.Look(ref column, ref afterBeat);
    }

    // Where somebody records already, the trial is marked in that recording.
    private void BeginRecording(TuningState state)
    {
        if (recordings is null)
        {
            _note = "live";
            return;
        }

        try
        {
            _isOwnRecording = recordings.CanRecord && recordings.Current is null;
            DeskRecording? kept = _isOwnRecording ? recordings.Begin() : recordings.Current;
            recordings.Mark($"{state.Session!.Knob.Name} {state.Session.Knob.Text(state.Setting!.Value)}");
            _note = kept is null ? "live" : Path.GetFileName(kept.Path);
        }
        catch (Exception none) when (none is IOException or UnauthorizedAccessException or InvalidOperationException)
        {
            // A disk that is full costs the recording, not the trial.
            (_note, _isOwnRecording) = ("live", false);
        }
    }

    private void EndRecording()
    {
        if (_isOwnRecording)
        {
            recordings?.End();
            _isOwnRecording = false;
        }
    }

    private void Forget()
    {
        EndRecording();
        _timesS.Clear();
        _pressuresPa.Clear();
        (_fromS, Clock) = (double.NaN, null);
    }
}
