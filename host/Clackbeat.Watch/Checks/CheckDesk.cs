using Clackbeat.Signal.HandTests;
using Clackbeat.Site.Model;
using Clackbeat.Watch.Recordings;
using Clackbeat.Words;

namespace Clackbeat.Watch.Checks;

/// <summary>Where a guided test stands.</summary>
public enum CheckPhase
{
    /// <summary>None runs.</summary>
    Idle,

    /// <summary>The waste valve is held shut, the gate open.</summary>
    Hold,

    /// <summary>The gate is shut too.</summary>
    Gate,

    /// <summary>The waste valve is pushed open: the trapped pressure would hold it shut.</summary>
    Release,

    /// <summary>It was read.</summary>
    Done,
}

/// <summary>A guided test as it stands.</summary>
/// <param name="Phase">Its phase.</param>
/// <param name="LeftS">Time that this phase needs still [s].</param>
/// <param name="Result">What it showed; null until it was read.</param>
public sealed record CheckState(CheckPhase Phase, double LeftS, ShutResult? Result);

/// <summary>
/// Leads through the test with gate and waste valve shut, on the samples that come in anyway: the keeper says when a hand is where it
/// belongs, each phase lasts as long as its reading needs, and the end is read at once. Samples come on the source's thread, wishes on any.
/// </summary>
/// <param name="site">The ram.</param>
/// <param name="desk">Records the test; null where nothing can be recorded.</param>
/// <param name="keep">Keeps what it showed, and the recording's file name.</param>
public sealed class CheckDesk(RamSite site, RecordingDesk? desk, Action<ShutResult, string?> keep)
{
    // Somewhat longer than the reading needs: a hand is late.
    private const double HoldS = 10;
    private const double GateS = 30;
    private const double ReleaseS = 7;

    // Nobody holds a valve so long: the test was forgotten.
    private const double LongestS = 300;

    private readonly Lock _gate = new();
    private readonly List<double> _timesS = [];
    private readonly List<double> _pressuresPa = [];
    private CheckPhase _phase;
    private double _phaseFromS = double.NaN;
    private ShutResult? _result;

    /// <summary>Where it stands.</summary>
    public CheckState State
    {
        get
        {
            lock (_gate)
            {
                return new CheckState(_phase, LeftS, _result);
            }
        }
    }

    private double NewestS => _timesS.Count > 0 ? _timesS[^1] : double.NaN;

    private double LeftS => NeededS(_phase) is var needed && double.IsNaN(_phaseFromS) ? needed : Math.Max(0, needed - (NewestS - _phaseFromS));

    /// <summary>Begins; the waste valve is held shut now. One that runs goes on.</summary>
    /// <exception cref="IOException">The recording can't be made.</exception>
    public void Begin()
    {
        lock (_gate)
        {
            if (_phase is not (CheckPhase.Idle or CheckPhase.Done))
            {
                return;
            }

            _timesS.Clear();
            _pressuresPa.Clear();
            (_phase, _phaseFromS, _result) = (CheckPhase.Hold, double.NaN, null);
        }

        if (desk is { CanRecord: true, Current: null })
        {
            desk.Begin();
        }
    }

    /// <summary>The keeper has done what the next phase asks for; too early it changes nothing.</summary>
    public void Next()
    {
        lock (_gate)
        {
            if (LeftS > 0 || _phase is not (CheckPhase.Hold or CheckPhase.Gate))
            {
                return;
            }

            _phase = _phase == CheckPhase.Hold ? CheckPhase.Gate : CheckPhase.Release;
            _phaseFromS = NewestS;
        }

        desk?.Mark(Phrases.Say(State.Phase == CheckPhase.Gate ? "page.hand.next.hold" : "page.hand.next.gate"));
    }

    /// <summary>Breaks it off.</summary>
    public void Cancel()
    {
        lock (_gate)
        {
            (_phase, _result) = (CheckPhase.Idle, null);
        }

        desk?.End();
    }

    /// <summary>Takes a sample.</summary>
    /// <param name="timeS">Its time [s].</param>
    /// <param name="pressurePa">Gauge pressure [Pa].</param>
    public void Take(double timeS, double pressurePa)
    {
        bool isOver;
        lock (_gate)
        {
            if (_phase is CheckPhase.Idle or CheckPhase.Done)
            {
                return;
            }

            _timesS.Add(timeS);
            _pressuresPa.Add(pressurePa);
            _phaseFromS = double.IsNaN(_phaseFromS) ? timeS : _phaseFromS;
            isOver = _phase == CheckPhase.Release && LeftS <= 0;
            if (timeS - _timesS[0] > LongestS)
            {
                _phase = CheckPhase.Idle;
                return;
            }

            if (isOver)
            {
                _result = ShutTest.Read([.. _timesS], [.. _pressuresPa], site, isGateAtIntake: false);
                _phase = CheckPhase.Done;
            }
        }

        if (isOver)
        {
            string? file = desk?.End() is { } ended ? Path.GetFileName(ended.Path) : null;
            keep(State.Result!, file);
        }
    }

    private static double NeededS(CheckPhase phase) => phase switch
    {
        CheckPhase.Hold => HoldS,
        CheckPhase.Gate => GateS,
        CheckPhase.Release => ReleaseS,
        _ => 0,
    };
}
