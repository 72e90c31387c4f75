using Clackbeat.Site.Model;
using Clackbeat.Tuning.Trials;
using Clackbeat.Watch.Live;

namespace Clackbeat.Watch.Tuning;

/// <summary>
/// The tuning session of a watch: what the keepers' devices ask for, step by step, and the file it is kept in. The session
/// lives here and not on any page: a page that is opened anew, or a second one, meets it where it stands. Of two devices
/// that ask at the same time the first is heard; the other is told that things have moved on.
/// </summary>
internal sealed class TuningDesk(RamSite site, TuningFolder folder, IRamKnob? ramKnob, LivePipeline pipeline)
{
    private const double SameSetting = 1e-9;

    private readonly Lock _gate = new();
    private TuningState _state = new() { Kept = folder.List() };

    /// <summary>Told of each change, one after another.</summary>
    public Action? Changed { get; set; }

    /// <summary>What the program itself can turn; null at a ram of iron.</summary>
    public IRamKnob? RamKnob => ramKnob;

    /// <summary>How things stand.</summary>
    public TuningState State
    {
        get
        {
            lock (_gate)
            {
                return _state;
            }
        }
    }

    /// <summary>Begins a session.</summary>
    public TuningProblem? Begin(SessionForm form)
    {
        lock (_gate)
        {
            if (_state.Phase != TuningPhase.Closed)
            {
                return Stale;
            }

            (TuningSession? session, TuningProblem? problem) = SessionForms.Read(form, site, ramKnob);
            if (session is null)
            {
                return problem;
            }

            string name = folder.FreeName();
            if (Save(name, session) is { } disk)
            {
                return disk;
            }

            Turn(session.Knob, session.Now!.Value);
            Become(_state with { Phase = TuningPhase.Ready, File = name, Session = session, Standing = session.Now, Kept = [] });
            return null;
        }
    }

    /// <summary>Goes on with a session of the folder.</summary>
    public TuningProblem? Open(string name)
    {
        lock (_gate)
        {
            if (_state.Phase != TuningPhase.Closed)
            {
                return Stale;
            }

            if (folder.Open(name) is not { } kept)
            {
                return new TuningProblem("no-file");
            }

            if (ramKnob is not null && (ramKnob.Hints.All(h => h.Name != kept.Session.Knob.Name) || KnobUnits.ToSi(kept.Session.Knob, 0) is null))
            {
                return new TuningProblem("virtual");
            }

            Become(_state with { Phase = TuningPhase.Ready, File = kept.Name, Session = kept.Session, Standing = null, Kept = [] });
            return null;
        }
    }

    /// <summary>Does what a keeper asks for.</summary>
    /// <param name="act">What.</param>
    /// <param name="revision">The state that the keeper saw.</param>
    /// <param name="typed">The setting, for <see cref="TuningAct.Choose"/>.</param>
    /// <param name="index">Number of the trial from 0, for <see cref="TuningAct.Drop"/>.</param>
    public TuningProblem? Do(TuningAct act, int revision, string? typed, int? index)
    {
        lock (_gate)
        {
            if (revision != _state.Revision || _state.Session is not { } session)
            {
                return Stale;
            }

            return (act, _state.Phase) switch
            {
                (TuningAct.Choose, TuningPhase.Ready) => Choose(session.Knob, SessionForms.Number(typed)),
                (TuningAct.IsSafe, TuningPhase.Safe) => Go(TuningPhase.Turn),
                (TuningAct.IsSet, TuningPhase.Turn) => Set(session.Knob, _state.Setting!.Value),
                (TuningAct.RecordNow, TuningPhase.Settle) => pipeline.State == LiveState.Beating ? Go(TuningPhase.Record) : new TuningProblem("not-beating"),
                (TuningAct.WontRun, TuningPhase.Settle) => WontRun(),
                (TuningAct.Cancel, TuningPhase.Safe or TuningPhase.Settle or TuningPhase.Record or TuningPhase.Read) => Go(TuningPhase.Ready),
                (TuningAct.Cancel, TuningPhase.Turn) => Become(_state with { Phase = TuningPhase.Ready, Standing = null, Setting = null }),
                (TuningAct.Keep, TuningPhase.Result) => Doubts(session, _state.Result!).Any(d => d.IsFinal)
                    ? new TuningProblem("same-recording")
                    : Change(session.With(_state.Result!)),
                (TuningAct.Reject, TuningPhase.Result) => Go(TuningPhase.Ready),
                (TuningAct.Drop, TuningPhase.Ready) => index is { } at && at >= 0 && at < session.Trials.Count ? Change(session.Without(at)) : Stale,
                (TuningAct.Close, TuningPhase.Ready) => Become(new TuningState { Revision = _state.Revision, Run = _state.Run, Kept = folder.List() }),
                _ => Stale,
            };
        }
    }

    /// <summary>The ram has settled.</summary>
    internal void Settled(int run) => Heard(run, TuningPhase.Settle, s => s with { Phase = TuningPhase.Record });

    /// <summary>All of a trial is recorded.</summary>
    internal void Recorded(int run) => Heard(run, TuningPhase.Record, s => s with { Phase = TuningPhase.Read });

    /// <summary>A trial's figures are there.</summary>
    internal void Judged(int run, Trial trial) => Heard(run, TuningPhase.Read, s => s with
    {
        Phase = TuningPhase.Result,
        Result = trial,
        Notice = Doubts(s.Session!, trial) is [var doubt, ..] ? new TuningProblem(doubt.IsFinal ? "same-recording" : "other-ram") : s.Notice,
    });

    // A file that is played again, or a logger that sits on another ram.
    private IReadOnlyList<TrialDoubt> Doubts(TuningSession session, Trial trial) => TrialDoubts.Of(session, site, trial, null);

    /// <summary>A trial broke off through no fault of the setting: the ram settles again, and it is made anew.</summary>
    internal void BrokenOff(int run, string code) =>
        Heard(run, TuningPhase.Record, s => s with { Phase = TuningPhase.Settle, Run = s.Run + 1, Notice = new TuningProblem(code) });

    /// <summary>Takes over what another program did to the session's file, between two trials.</summary>
    internal void LookAtFile()
    {
        lock (_gate)
        {
            if (_state is { Phase: TuningPhase.Ready, File: { } file } && folder.ChangedElsewhere(file) is { } session)
            {
                Become(_state with { Session = session, Standing = null });
            }
        }
    }

    private static TuningProblem Stale => new("stale");

    private TuningProblem? Choose(Knob knob, double setting)
    {
        if (double.IsNaN(setting))
        {
            return new TuningProblem("number", "setting");
        }

        if (setting < knob.Lowest || setting > knob.Highest)
        {
            return new TuningProblem("outside", "setting");
        }

        bool stands = _state.Standing is { } now && Math.Abs(now - setting) <= SameSetting * knob.Span;
        return Become(_state with { Phase = stands ? TuningPhase.Settle : TuningPhase.Safe, Run = _state.Run + 1, Setting = setting, WasTurned = !stands });
    }

    private TuningProblem? Set(Knob knob, double setting)
    {
        Turn(knob, setting);
        pipeline.Mark($"{knob.Name} {knob.Text(setting)}");
        return Become(_state with { Phase = TuningPhase.Settle, Run = _state.Run + 1, Standing = setting });
    }

    // What was measured before no longer holds; the running figures begin anew.
    private void Turn(Knob knob, double setting)
    {
        if (ramKnob is not null && KnobUnits.ToSi(knob, setting) is { } si
            && Math.Abs(ramKnob.Hints.First(h => h.Name == knob.Name).Now - si) > SameSetting)
        {
            ramKnob.Turn(knob.Name, si);
        }

        pipeline.BeginWindow();
    }

    private TuningProblem? WontRun()
    {
        TrialLack lack = pipeline.State switch
        {
            LiveState.StoppedShut => TrialLack.StoppedShut,
            LiveState.StoppedOpen => TrialLack.StoppedOpen,
            _ => TrialLack.None,
        };
        return lack == TrialLack.None
            ? new TuningProblem("it-runs")
            : Become(_state with { Phase = TuningPhase.Result, Result = TrialReader.Stood(_state.Setting!.Value, lack, "") });
    }

    private TuningProblem? Go(TuningPhase phase) => Become(_state with
    {
        Phase = phase,
        Result = null,
        Setting = phase == TuningPhase.Ready ? null : _state.Setting,
    });

    private TuningProblem? Change(TuningSession session) =>
        Save(_state.File!, session) ?? Become(_state with { Phase = TuningPhase.Ready, Session = session, Setting = null, Result = null });

    private TuningProblem? Save(string name, TuningSession session)
    {
        try
        {
            folder.Save(name, session);
            return null;
        }
        catch (IOException disk)
        {
            return new TuningProblem("disk", null, disk.Message);
        }
    }

    private void Heard(int run, TuningPhase during, Func<TuningState, TuningState> change)
    {
        lock (_gate)
        {
            // Whoever broke it off meanwhile doesn't want to hear how it ended.
            if (_state.Run == run && _state.Phase == during)
            {
                Become(change(_state));
            }
        }
    }

    private TuningProblem? Become(TuningState state)
    {
        Findings? found = state.Session is null ? null
            : ReferenceEquals(state.Session, _state.Session) ? _state.Found
            : Findings.Of(state.Session);
        bool keepsNotice = !ReferenceEquals(state.Notice, _state.Notice) || state.Phase is TuningPhase.Settle or TuningPhase.Record;
        _state = state with { Revision = _state.Revision + 1, Found = found, Notice = keepsNotice ? state.Notice : null };
        Changed?.Invoke();
        return null;
    }
}
