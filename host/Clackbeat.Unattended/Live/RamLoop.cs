using Clackbeat.Recording.Files;
using Clackbeat.Season.Schedule;
using Clackbeat.Season.Store;
using Clackbeat.Unattended.Raw;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Surroundings;
using Clackbeat.Words;

namespace Clackbeat.Unattended.Live;

/// <summary>The log of one ram: burst, store, make room, look until the next is due; through whatever happens.</summary>
internal sealed class RamLoop
{
    private static readonly TimeSpan Slice = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan LookAgain = TimeSpan.FromSeconds(20);
    private static readonly TimeSpan AfterFault = TimeSpan.FromSeconds(10);

    // A system waits a minute or so for a service to end; what isn't stored by then waits for the next start.
    private static readonly TimeSpan LastMoments = TimeSpan.FromSeconds(20);

    private readonly RamSettings _ram;
    private readonly LogSettings _settings;
    private readonly LogWorld _world;
    private readonly StoreGate _store;
    private readonly RawFolder _raw;
    private readonly LoggerFinder _finder;
    private readonly BurstTaker _taker;
    private readonly BetweenBursts _between;
    private readonly BurstDates _dates;
    private readonly IRamListener _listener;
    private readonly IReadOnlyList<RecordingDocument> _documents;
    private readonly RamNews _news;
    private readonly PendingBursts _pending;
    private (DateOnly Day, int Count) _extra;
    private Found _found;
    private string _doing = Phrases.Say("unattended.starting");
    private DateTimeOffset? _nextUtc;

    public RamLoop(RamSettings ram, LogSettings settings, LogWorld world, LogShared shared, IRamListener listener)
    {
        (_ram, _settings, _world, _listener) = (ram, settings, world, listener);
        (_store, _documents) = (shared.Store, shared.Documents(ram.SitePath));
        _raw = shared.Folders.Single(f => f.Ram == ram.Site.Name);
        _finder = new LoggerFinder(ram, settings.LookIn, shared.Loggers, world);
        _dates = new BurstDates(_raw, world.Time);
        _taker = new BurstTaker(ram, _raw, world);
        _between = new BetweenBursts(ram, settings.Between.Limits, world);
        _news = new RamNews(ram.Site.Name, listener);
        _pending = new PendingBursts(ram, settings, shared, _raw, _dates, _news, world.Time, TakeStored);
        AliveAt = world.Time.GetTimestamp();
    }

    /// <summary>How it stands.</summary>
    public RamStatus Status => new(_ram.Site.Name, _doing, _pending.Last, _pending.Stored, _pending.Waiting, _nextUtc);

    /// <summary>When it last showed that it lives, on the unbroken clock.</summary>
    public long AliveAt { get; private set; }

    /// <summary>Logs until stopped.</summary>
    public void Run(CancellationToken stop)
    {
        (bool begun, bool due, bool extra) = (false, false, false);
        while (!stop.IsCancellationRequested)
        {
            // Each step stands for itself: a burst that can't be stored must not keep the next from being recorded.
            bool well = Guarded(() =>
            {
                due |= !begun && Begin(stop);
                begun = true;
            });
            well &= !due || Guarded(() => Burst(extra, stop));
            well &= Guarded(() => _pending.StoreAll(Summing, stop));
            (due, extra) = (false, false);
            if (well)
            {
                _news.Over("fault", Phrases.Say("unattended.goes-on"));
            }

            if (!stop.IsCancellationRequested && !Guarded(() => (due, extra) = WaitForNext(stop)))
            {
                ReportActivity(Phrases.Say("unattended.waiting-after-fault"));
                Wait(AfterFault, stop);
            }
        }

        StoreInLastMoments();
        ReportActivity(Phrases.Say("unattended.ended"));
    }

    // Nothing may end a log that nobody looks at; what went wrong is told once, and the next burst tries again.
    private bool Guarded(Action step)
    {
        try
        {
            step();
            return true;
        }
        catch (Exception fault) when (fault is not OutOfMemoryException)
        {
            string words = fault.Message.ReplaceLineEndings(" ");
            _news.Trouble("fault", fault is IOException or UnauthorizedAccessException
                ? Phrases.Say("unattended.folder-unusable", ("why", words))
                : Phrases.Say("unattended.fault", ("why", words)));
            return false;
        }
    }

    private void StoreInLastMoments()
    {
        using var last = new CancellationTokenSource(LastMoments);
        try
        {
            _pending.StoreAll(Summing, last.Token);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            _news.Tell(Phrases.Say("unattended.last-burst-waits", ("why", fault.Message)), isTrouble: true);
        }
    }

    // What the last run left is taken up; true when a burst is due at once.
    private bool Begin(CancellationToken stop)
    {
        _pending.StoreAll(Summing, stop);
        if (!IsRecent())
        {
            return true;
        }

        Remember(stop);
        return false;
    }

    // A log that is started again and again, as by a system that restarts what fails, shall not fill the disk with bursts.
    private bool IsRecent() => _raw.Newest() is { } newest && (_world.Time.GetUtcNow() - newest).Duration() < _settings.Every;

    // After a restart the watch goes on from the last burst of the run before.
    private void Remember(CancellationToken stop)
    {
        _found = _finder.Find(thorough: true, stop);
        try
        {
            DateTimeOffset now = _world.Time.GetUtcNow();
            var span = new TimeSpanUtc(now - (2 * _settings.Every), now);
            if (_store.Use(s => s.Bursts(_ram.Site.Name, span).LastOrDefault()) is { } last)
            {
                _between.Expect(last);
            }
        }
        catch (Exception fault) when (StoreGate.IsFault(fault))
        {
            _news.Trouble("store", Phrases.Say("unattended.store-unusable", ("why", fault.Message)));
        }
    }

    private void Burst(bool extra, CancellationToken stop)
    {
        ReportActivity(Phrases.Say("unattended.looking"));
        _found = _finder.Find(thorough: true, stop);
        if (_found.Port is not { } port)
        {
            if (!stop.IsCancellationRequested)
            {
                _news.Trouble("logger", _found.Words);
            }

            return;
        }

        if (_found.Words.Length > 0)
        {
            _news.Tell(_found.Words, isTrouble: true);
        }

        ReportActivity(Phrases.Say("unattended.recording"));
        long began = _world.Time.GetTimestamp();
        BurstTaken taken = _taker.Take(port, _found.Logger, _settings.Length, extra, _documents, _ => Alive(), stop);
        if (taken.IsDiskFault)
        {
            _news.Trouble("disk", Phrases.Say("unattended.burst-not-whole", ("why", taken.Problem ?? "")));
        }
        else if (taken.Problem is { } problem)
        {
            _news.Trouble("logger", problem);
        }

        if (taken.Taken)
        {
            _dates.Note(taken.Path, began);
            _listener.Heard(_ram.Site.Name);
            _news.Over("logger", Phrases.Say("unattended.heard-again"));
        }

        if (taken is { Taken: true, IsDiskFault: false })
        {
            _news.Over("disk", Phrases.Say("unattended.whole-again"));
        }
    }

    private (bool Due, bool Extra) WaitForNext(CancellationToken stop)
    {
        DateTimeOffset next = BurstClock.Next(_world.Time.GetUtcNow(), _settings.Every);
        long lookedAt = _world.Time.GetTimestamp();
        bool lost = _found.Port is null;
        bool IsDue()
        {
            Alive();
            DateTimeOffset now = _world.Time.GetUtcNow();

            // A calendar that was set back must not hold the next burst up.
            next = next - now > _settings.Every ? BurstClock.Next(now, _settings.Every) : next;
            return now >= next;
        }

        while (!stop.IsCancellationRequested && !IsDue())
        {
            _nextUtc = next;
            if (lost && _world.Time.GetElapsedTime(lookedAt) >= LookAgain)
            {
                lookedAt = _world.Time.GetTimestamp();
                _found = _finder.Find(thorough: false, stop);
                lost = _found.Port is null;
                if (!lost && MayTakeExtra())
                {
                    // What happened while nobody listened is worth a burst at once.
                    CountExtra();
                    return (true, true);
                }
            }

            if (!lost && _settings.Between.Watch && MayTakeExtra() && _found.Port is { } port)
            {
                ReportActivity(Phrases.Say("unattended.watching"));
                LookEnd end = _between.Look(port, _found.Logger, IsDue, out BeatChange change, stop);
                lost = end == LookEnd.Lost;
                lookedAt = _world.Time.GetTimestamp();
                if (lost)
                {
                    _news.Trouble("logger", Phrases.Say("unattended.not-heard", ("port", port)));
                }

                if (end == LookEnd.Changed)
                {
                    CountExtra();
                    _news.Tell(Words(change), isTrouble: false);
                    return (true, true);
                }
            }
            else
            {
                ReportActivity(lost ? Phrases.Say("unattended.waiting-logger") : Phrases.Say("unattended.waiting-burst"));
                _world.Wait(Slice, stop);
            }
        }

        return (!stop.IsCancellationRequested, false);
    }

    private bool MayTakeExtra() => (_extra.Day == Today() ? _extra.Count : 0) < _settings.Between.ExtraADay;

    private void CountExtra() => _extra = _extra.Day == Today() ? (_extra.Day, _extra.Count + 1) : (Today(), 1);

    private DateOnly Today() => DateOnly.FromDateTime(_world.Time.GetUtcNow().UtcDateTime);

    private static string Words(BeatChange change) => change switch
    {
        BeatChange.Stopped => Phrases.Say("unattended.stopped"),
        BeatChange.Started => Phrases.Say("unattended.started"),
        BeatChange.Rate => Phrases.Say("unattended.rate-changed"),
        _ => Phrases.Say("unattended.peak-changed"),
    };

    private void Wait(TimeSpan span, CancellationToken stop)
    {
        long began = _world.Time.GetTimestamp();
        while (!stop.IsCancellationRequested && _world.Time.GetElapsedTime(began) < span)
        {
            Alive();
            _world.Wait(Slice, stop);
        }
    }

    private void Summing() => ReportActivity(Phrases.Say("unattended.summing"));

    private void TakeStored(SeasonBurst burst)
    {
        _between.Expect(burst);
        _listener.Stored(burst);
    }

    private void ReportActivity(string words)
    {
        _doing = words;
        Alive();
    }

    private void Alive() => AliveAt = _world.Time.GetTimestamp();
}
