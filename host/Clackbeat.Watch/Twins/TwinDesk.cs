using Clackbeat.Signal.Analysis;
using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.Twin.Changes;
using Clackbeat.Twin.Fitting;

namespace Clackbeat.Watch.Twins;

/// <summary>Where the twin of the newest minute stands.</summary>
internal enum TwinPhase
{
    /// <summary>Nobody asked for one.</summary>
    None,

    /// <summary>It is being fitted.</summary>
    Fitting,

    /// <summary>It answers questions.</summary>
    Ready,

    /// <summary>The minute holds too few beats.</summary>
    FewBeats,

    /// <summary>No virtual ram beats as the record does.</summary>
    NoFit,

    /// <summary>There is one, but it doesn't beat as the record does: nothing is foretold from it.</summary>
    Unlike,

    /// <summary>The waste valve is a flap, for which a twin isn't reliable: nothing is foretold from it.</summary>
    Flap,
}

/// <summary>A twin and the questions that can be put to it.</summary>
/// <param name="Twin">The twin.</param>
/// <param name="Questions">The questions.</param>
/// <param name="Beats">Beats of the minute it was fitted to.</param>
/// <param name="MadeAt">Time stamp of the end of that minute.</param>
internal sealed record LiveTwin(FittedTwin Twin, WhatIf Questions, int Beats, long MadeAt);

/// <summary>The desk as it stands.</summary>
/// <param name="Phase">The phase.</param>
/// <param name="Share">How much of the longest fit is done, 0 to 1.</param>
/// <param name="BeganAt">Time stamp of the fit's beginning.</param>
/// <param name="Live">The twin; null where there is none.</param>
internal sealed record TwinState(TwinPhase Phase, double Share = 0, long BeganAt = 0, LiveTwin? Live = null);

/// <summary>
/// Fits a twin to the newest minute when a reader asks, on a thread of its own: neither samples nor figures wait for it. One is made at a
/// time, and all readers see the same. Questions are answered one by one.
/// </summary>
/// <param name="site">The ram.</param>
/// <param name="minute">The newest minute as a whole record; null where it holds nothing.</param>
/// <param name="ending">Cancelled when the program ends.</param>
internal sealed class TwinDesk(RamSite site, Func<RamAnalysis?> minute, CancellationToken ending)
{
    private readonly Lock _gate = new();
    private readonly Lock _turn = new();
    private volatile TwinState _state = new(TwinPhase.None);
    private Thread? _work;

    /// <summary>Where it stands.</summary>
    public TwinState State => _state;

    /// <summary>The ram.</summary>
    public RamSite Site => site;

    /// <summary>Begins a fit; does nothing while one is at work.</summary>
    public void Begin()
    {
        lock (_gate)
        {
            if (_state.Phase == TwinPhase.Fitting || ending.IsCancellationRequested)
            {
                return;
            }

            _state = new TwinState(TwinPhase.Fitting, BeganAt: TimeProvider.System.GetTimestamp());
            _work = new Thread(Work) { IsBackground = true, Name = "page twin", Priority = ThreadPriority.BelowNormal };
            _work.Start();
        }
    }

    /// <summary>What a change would do; null where no twin answers.</summary>
    /// <param name="wish">The change.</param>
    /// <param name="stop">The reader has gone, or moved on.</param>
    public (LiveTwin Of, Prediction Told, RamChange Change)? Try(TwinWish wish, CancellationToken stop)
    {
        lock (_turn)
        {
            stop.ThrowIfCancellationRequested();
            if (_state is not { Phase: TwinPhase.Ready, Live: { } live })
            {
                return null;
            }

            RamChange change = wish.Change(site, live.Questions.AirNow);
            return (live, live.Questions.Of(change), change);
        }
    }

    /// <summary>Waits until no fit is at work any more; for the program's end.</summary>
    public void Join()
    {
        lock (_gate)
        {
            _work?.Join();
        }
    }

    private void Work()
    {
        try
        {
            _state = Fitted();
        }
        catch (Exception end) when (end is OperationCanceledException or InputException)
        {
            _state = new TwinState(TwinPhase.NoFit);
        }
    }

    private TwinState Fitted()
    {
        long now = TimeProvider.System.GetTimestamp();
        if (minute() is not { Beats.RatePerMin: not null } analysis)
        {
            return new TwinState(TwinPhase.FewBeats);
        }

        if (FittedTwin.Of(site, analysis, new Told(share => _state = _state with { Share = share }), ending) is not { } twin)
        {
            return new TwinState(TwinPhase.NoFit);
        }

        var live = new LiveTwin(twin, new WhatIf(site, analysis, twin), analysis.Beats.Count, now);
        // The air of now costs some runs: they are made here and not while a reader waits at a slider.
        _ = twin.Fits ? live.Questions.VesselSwingPa : null;
        return new TwinState(twin.IsOfFlap ? TwinPhase.Flap : twin.Fits ? TwinPhase.Ready : TwinPhase.Unlike, 1, now, live);
    }

    // Told on the thread that works, so that no share comes after the end.
    private sealed class Told(Action<double> tell) : IProgress<double>
    {
        public void Report(double value) => tell(value);
    }
}
