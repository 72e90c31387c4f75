using Clackbeat.Recording.Files;
using Clackbeat.Season.Schedule;
using Clackbeat.Season.Store;
using Clackbeat.Unattended.Bursts;
using Clackbeat.Unattended.Raw;
using Clackbeat.Unattended.Settings;

namespace Clackbeat.Unattended.Live;

/// <summary>The log of one ram: burst, store, make room, look until the next is due; through whatever happens.</summary>
internal sealed class RamLoop
{
    private static readonly TimeSpan Slice = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan LookAgain = TimeSpan.FromSeconds(20);
    private static readonly TimeSpan AfterFault = TimeSpan.FromSeconds(10);

    // A system waits a minute or so for a service to end; what isn't stored by then waits for the next start.
    private static readonly TimeSpan LastMoments = TimeSpan.FromSeconds(20);

    // What ended so early tells no state: a beat in it may be the ram's last or its first.
    private const double LeastTellingS = 20;

    private readonly RamSettings _ram;
    private readonly LogSettings _settings;
    private readonly LogWorld _world;
    private readonly StoreGate _store;
    private readonly DiskKeeper _disk;
    private readonly RawFolder _raw;
    private readonly LoggerFinder _finder;
    private readonly BurstTaker _taker;
    private readonly BetweenBursts _between;
    private readonly BurstDates _dates;
    private readonly IRamListener _listener;
    private readonly IReadOnlyList<RecordingDocument> _documents;
    private readonly Dictionary<string, string> _troubles = [];
    private (DateOnly Day, int Count) _extra;
    private Found _found;

    public RamLoop(RamSettings ram, LogSettings settings, LogWorld world, LogShared shared, IRamListener listener)
    {
        (_ram, _settings, _world, _listener) = (ram, settings, world, listener);
        (_store, _disk, _documents) = (shared.Store, shared.Disk, shared.Documents(ram.SitePath));
        _raw = shared.Folders.Single(f => f.Ram == ram.Site.Name);
        _finder = new LoggerFinder(ram, settings.LookIn, shared.Loggers, world);
        _dates = new BurstDates(_raw, world.Time);
        _taker = new BurstTaker(ram, _raw, world);
        _between = new BetweenBursts(ram, settings.Between.Limits, world);
        Status = new RamStatus(ram.Site.Name, "starting", null, 0, 0, null);
        AliveAt = world.Time.GetTimestamp();
    }

    /// <summary>How it stands.</summary>
    public RamStatus Status { get; private set; }

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
            well &= Guarded(() => StorePending(stop));
            (due, extra) = (false, false);
            if (well)
            {
                Over("fault", "It goes on.");
            }

            if (!stop.IsCancellationRequested && !Guarded(() => (due, extra) = WaitForNext(stop)))
            {
                Doing("waiting after a fault");
                Wait(AfterFault, stop);
            }
        }

        StoreInLastMoments();
        Doing("ended");
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
            Trouble("fault", fault is IOException or UnauthorizedAccessException
                ? $"The log's folder can't be used and is tried again and again: {words} Check the disk."
                : $"Something went wrong and is tried again: {words}");
            return false;
        }
    }

    private void StoreInLastMoments()
    {
        using var last = new CancellationTokenSource(LastMoments);
        try
        {
            StorePending(last.Token);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            Tell($"The last burst waits on the disk for the next start: {fault.Message}", isTrouble: true);
        }
    }

    // What the last run left is taken up; true when a burst is due at once.
    private bool Begin(CancellationToken stop)
    {
        StorePending(stop);
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
            Trouble("store", $"The season store can't be used, and bursts wait on the disk until it can: {fault.Message}");
        }
    }

    private void Burst(bool extra, CancellationToken stop)
    {
        Doing("looking for the logger");
        _found = _finder.Find(thorough: true, stop);
        if (_found.Port is not { } port)
        {
            if (!stop.IsCancellationRequested)
            {
                Trouble("logger", _found.Words);
            }

            return;
        }

        if (_found.Words.Length > 0)
        {
            Tell(_found.Words, isTrouble: true);
        }

        Doing("recording a burst");
        long began = _world.Time.GetTimestamp();
        BurstTaken taken = _taker.Take(port, _found.Logger, _settings.Length, extra, _documents, _ => Alive(), stop);
        if (taken.IsDiskFault)
        {
            Trouble("disk", $"A burst could not be recorded whole: {taken.Problem} Check the disk and its free space.");
        }
        else if (taken.Problem is { } problem)
        {
            Trouble("logger", problem);
        }

        if (taken.Taken)
        {
            _dates.Note(taken.Path, began);
            _listener.Heard(_ram.Site.Name);
            Over("logger", "Its logger is heard again.");
        }

        if (taken is { Taken: true, IsDiskFault: false })
        {
            Over("disk", "Bursts are recorded whole again.");
        }
    }

    // A store that fails keeps bursts waiting on the disk, and none is lost.
    private void StorePending(CancellationToken stop)
    {
        int remnants = _raw.Recover();
        if (remnants > 0)
        {
            Tell($"{remnants} unfinished {(remnants == 1 ? "burst was found and is" : "bursts were found and are")} stored as far as recorded.", isTrouble: false);
        }

        List<string> pending = Datable();
        foreach (string path in pending)
        {
            if (stop.IsCancellationRequested)
            {
                break;
            }

            Doing("summing a burst up");
            try
            {
                Store(path);
                Over("store", "The season store takes bursts again; those that waited are stored.");
            }
            catch (Exception fault) when (StoreGate.IsFault(fault))
            {
                Trouble("store", $"The season store can't be used, and bursts wait on the disk until it can: {fault.Message}");
                break;
            }
        }

        Status = Status with { Pending = _raw.Pending().Count };
        if (pending.Count > 0)
        {
            MakeRoom();
        }
    }

    // What was recorded in 1970 would stand a lifetime before all else in every trend.
    private List<string> Datable()
    {
        if (_dates.IsSet)
        {
            (int dated, int unknown) = _dates.Date();
            Over("clock", $"This computer's clock is set; bursts that waited for it: {dated}, dated by how long ago they were.");
            if (unknown > 0)
            {
                Tell($"{unknown} {(unknown == 1 ? "burst" : "bursts")} of an earlier run, when this computer's clock was not set, were put into the folder \"unreadable\": nobody knows when they were. Store them with 'clackbeat log FILE --start TIME' if you know.", isTrouble: true);
            }
        }
        else
        {
            Trouble("clock", FormattableString.Invariant($"This computer's clock says {_world.Time.GetUtcNow():yyyy-MM-dd} and can't be right. Bursts are recorded and wait on the disk until it is set: connect it to a network once, or set it by hand."));
        }

        return [.. _raw.Pending().Where(p => !BurstDates.IsUndated(p))];
    }

    private void Store(string path)
    {
        // A store that can't be opened is no fault of the recording.
        _store.Use(_ => 0);
        string source = _raw.SourceOf(path);
        if (SumUp(path, source) is not { } bursts)
        {
            return;
        }

        Over("read " + source, $"{source} can be read again.");
        SeasonBurst[] telling = [.. bursts.Where(b => b.DurationS >= Math.Min(LeastTellingS, 0.5 * _settings.Length.TotalSeconds))];
        if (telling.Length > 0)
        {
            _store.Use(s => s.Add(telling));
            TellOfServer();
        }

        Settle(path, source);
        Status = Status with { Stored = Status.Stored + telling.Length, Last = telling.LastOrDefault() ?? Status.Last };
        foreach (SeasonBurst burst in telling)
        {
            _between.Expect(burst);
            _listener.Stored(burst);
        }
    }

    // Null where the recording itself stands in the way: one that can't be used must not hold up those behind it.
    private IReadOnlyList<SeasonBurst>? SumUp(string path, string source)
    {
        bool storeFailed = false;
        bool IsKnown(byte[] hash)
        {
            storeFailed = true;
            bool known = _store.Use(s => s.Has(_ram.Site.Name, hash));
            storeFailed = false;
            return known;
        }

        try
        {
            return RecordedBurst.Read(path, source, _ram.Site, IsKnown, RawFolder.TrueStartOf(path));
        }
        catch (Exception fault) when (!storeFailed && fault is IOException or UnauthorizedAccessException)
        {
            Trouble("read " + source, $"{source} can't be read now and waits under pending; the others go on: {fault.Message} Check the disk.");
        }
        catch (Exception fault) when (!storeFailed && fault is not OutOfMemoryException)
        {
            Tell($"{source} can't be used and was put into the folder \"unreadable\": {fault.Message}", isTrouble: true);
            _raw.SetAside(path);
        }

        return null;
    }

    // What the store has is safe there; that its file can't be moved holds nothing up.
    private void Settle(string path, string source)
    {
        try
        {
            _disk.Count(_raw.Settle(path));
            Over("settle", "Files of bursts can be moved again.");
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            Trouble("settle", $"{source} is stored, but its file can't be moved out of pending: {fault.Message} Check the disk and the rights to the log's folder.");
        }
    }

    // A server's bursts wait in a file beside while it can't be reached; the keeper should know, and needn't do anything in haste.
    private void TellOfServer()
    {
        if (_store.Use(s => (s as BufferedSeasonStore)?.Trouble) is { } trouble)
        {
            Trouble("server", $"The store's server can't be reached, and bursts wait in outbox.db until it can: {trouble}");
        }
        else
        {
            Over("server", "The store's server takes bursts again; those that waited were sent.");
        }
    }

    private void MakeRoom()
    {
        RoomMade made = _disk.MakeRoom();
        if (made.RemovedPrecious > 0)
        {
            Trouble("precious", "Room is short: raw bursts around alerts, marks or of the first days are removed as well, the oldest first. Their summaries stay.");
        }

        if (made.Refused is { } refused)
        {
            Trouble("room", $"Room is short, and raw bursts can't be removed: {refused} Check the disk and the rights to the log's folder.");
        }
        else if (made.IsShort)
        {
            Trouble("room", $"The disk is nearly full ({ByteSize.Text(_disk.FreeBytes)} free) and no raw burst is left to remove. Free some space.");
        }
        else
        {
            Over("room", "There is room on the disk again.");
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
            Status = Status with { NextUtc = next };
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
                Doing("watching it run");
                LookEnd end = _between.Look(port, _found.Logger, IsDue, out RamChange change, stop);
                lost = end == LookEnd.Lost;
                lookedAt = _world.Time.GetTimestamp();
                if (lost)
                {
                    Trouble("logger", $"The logger on {port} can't be heard any more. It is looked for again and again.");
                }

                if (end == LookEnd.Changed)
                {
                    CountExtra();
                    Tell(Words(change), isTrouble: false);
                    return (true, true);
                }
            }
            else
            {
                Doing(lost ? "waiting for the logger" : "waiting for the next burst");
                _world.Wait(Slice, stop);
            }
        }

        return (!stop.IsCancellationRequested, false);
    }

    private bool MayTakeExtra() => (_extra.Day == Today() ? _extra.Count : 0) < _settings.Between.ExtraADay;

    private void CountExtra() => _extra = _extra.Day == Today() ? (_extra.Day, _extra.Count + 1) : (Today(), 1);

    private DateOnly Today() => DateOnly.FromDateTime(_world.Time.GetUtcNow().UtcDateTime);

    private static string Words(RamChange change) => change switch
    {
        RamChange.Stopped => "It stopped beating; an extra burst is taken.",
        RamChange.Started => "It beats again; an extra burst is taken.",
        RamChange.Rate => "Its beat rate changed; an extra burst is taken.",
        _ => "Its peak changed; an extra burst is taken.",
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

    private void Doing(string words)
    {
        Status = Status with { Doing = words };
        Alive();
    }

    private void Alive() => AliveAt = _world.Time.GetTimestamp();

    private void Tell(string words, bool isTrouble) => _listener.Tell(new LogNews(_ram.Site.Name, words, isTrouble));

    // The same trouble is told once, until it is over.
    private void Trouble(string kind, string words)
    {
        if (!_troubles.TryGetValue(kind, out string? told) || told != words)
        {
            _troubles[kind] = words;
            Tell(words, isTrouble: true);
        }
    }

    private void Over(string kind, string words)
    {
        if (_troubles.Remove(kind))
        {
            Tell(words, isTrouble: false);
        }
    }
}
