using Clackbeat.Season.Store;
using Clackbeat.Unattended.Bursts;
using Clackbeat.Unattended.Raw;
using Clackbeat.Unattended.Settings;

namespace Clackbeat.Unattended.Live;

/// <summary>The way of a ram's bursts from the folder where they wait into the store, whatever stands in the way of one of them.</summary>
internal sealed class PendingBursts
{
    // What ended so early tells no state: a beat in it may be the ram's last or its first.
    private const double LeastTellingS = 20;

    private readonly RamSettings _ram;
    private readonly LogSettings _settings;
    private readonly StoreGate _store;
    private readonly DiskKeeper _disk;
    private readonly RawFolder _raw;
    private readonly BurstDates _dates;
    private readonly RamNews _news;
    private readonly TimeProvider _time;
    private readonly Action<SeasonBurst> _stored;

    /// <summary>Makes the way of one ram.</summary>
    /// <param name="ram">The ram.</param>
    /// <param name="settings">The log's settings.</param>
    /// <param name="shared">The store and the disk, which all rams share.</param>
    /// <param name="raw">The ram's folder.</param>
    /// <param name="dates">When bursts were that were recorded before the calendar was set.</param>
    /// <param name="news">What is told of the ram.</param>
    /// <param name="time">The host's clocks.</param>
    /// <param name="stored">Told of each burst that is in the store.</param>
    public PendingBursts(
        RamSettings ram, LogSettings settings, LogShared shared, RawFolder raw, BurstDates dates, RamNews news, TimeProvider time, Action<SeasonBurst> stored)
    {
        (_ram, _settings, _store, _disk) = (ram, settings, shared.Store, shared.Disk);
        (_raw, _dates, _news, _time, _stored) = (raw, dates, news, time, stored);
    }

    /// <summary>Bursts stored by this run.</summary>
    public int Stored { get; private set; }

    /// <summary>Bursts that still wait.</summary>
    public int Waiting { get; private set; }

    /// <summary>The newest burst stored; null before the first.</summary>
    public SeasonBurst? Last { get; private set; }

    /// <summary>Stores what waits, the oldest first; a store that fails keeps bursts waiting on the disk, and none is lost.</summary>
    /// <param name="begins">Called before each.</param>
    /// <param name="stop">Ends the work between two bursts.</param>
    public void StoreAll(Action begins, CancellationToken stop)
    {
        int remnants = _raw.Recover();
        if (remnants > 0)
        {
            _news.Tell($"{remnants} unfinished {(remnants == 1 ? "burst was found and is" : "bursts were found and are")} stored as far as recorded.", isTrouble: false);
        }

        List<string> pending = Datable();
        foreach (string path in pending)
        {
            if (stop.IsCancellationRequested)
            {
                break;
            }

            begins();
            try
            {
                Store(path);
                _news.Over("store", "The season store takes bursts again; those that waited are stored.");
            }
            catch (Exception fault) when (StoreGate.IsFault(fault))
            {
                _news.Trouble("store", $"The season store can't be used, and bursts wait on the disk until it can: {fault.Message}");
                break;
            }
        }

        Waiting = _raw.Pending().Count;
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
            _news.Over("clock", $"This computer's clock is set; bursts that waited for it: {dated}, dated by how long ago they were.");
            if (unknown > 0)
            {
                _news.Tell($"{unknown} {(unknown == 1 ? "burst" : "bursts")} of an earlier run, when this computer's clock was not set, were put into the folder \"unreadable\": nobody knows when they were. Store them with 'clackbeat log FILE --start TIME' if you know.", isTrouble: true);
            }
        }
        else
        {
            _news.Trouble("clock", FormattableString.Invariant($"This computer's clock says {_time.GetUtcNow():yyyy-MM-dd} and can't be right. Bursts are recorded and wait on the disk until it is set: connect it to a network once, or set it by hand."));
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

        _news.Over("read " + source, $"{source} can be read again.");
        SeasonBurst[] telling = [.. bursts.Where(b => b.DurationS >= Math.Min(LeastTellingS, 0.5 * _settings.Length.TotalSeconds))];
        if (telling.Length > 0)
        {
            _store.Use(s => s.Add(telling));
            TellOfServer();
        }

        Settle(path, source);
        (Stored, Last) = (Stored + telling.Length, telling.LastOrDefault() ?? Last);
        foreach (SeasonBurst burst in telling)
        {
            _stored(burst);
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
            _news.Trouble("read " + source, $"{source} can't be read now and waits under pending; the others go on: {fault.Message} Check the disk.");
        }
        catch (Exception fault) when (!storeFailed && fault is not OutOfMemoryException)
        {
            _news.Tell($"{source} can't be used and was put into the folder \"unreadable\": {fault.Message}", isTrouble: true);
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
            _news.Over("settle", "Files of bursts can be moved again.");
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            _news.Trouble("settle", $"{source} is stored, but its file can't be moved out of pending: {fault.Message} Check the disk and the rights to the log's folder.");
        }
    }

    // A server's bursts wait in a file beside while it can't be reached; the keeper should know, and needn't do anything in haste.
    private void TellOfServer()
    {
        if (_store.Use(s => (s as BufferedSeasonStore)?.Trouble) is { } trouble)
        {
            _news.Trouble("server", $"The store's server can't be reached, and bursts wait in outbox.db until it can: {trouble}");
        }
        else
        {
            _news.Over("server", "The store's server takes bursts again; those that waited were sent.");
        }
    }

    private void MakeRoom()
    {
        RoomMade made = _disk.MakeRoom();
        if (made.RemovedPrecious > 0)
        {
            _news.Trouble("precious", "Room is short: raw bursts around alerts, marks or of the first days are removed as well, the oldest first. Their summaries stay.");
        }

        if (made.Refused is { } refused)
        {
            _news.Trouble("room", $"Room is short, and raw bursts can't be removed: {refused} Check the disk and the rights to the log's folder.");
        }
        else if (made.IsShort)
        {
            _news.Trouble("room", $"The disk is nearly full ({ByteSize.Text(_disk.FreeBytes)} free) and no raw burst is left to remove. Free some space.");
        }
        else
        {
            _news.Over("room", "There is room on the disk again.");
        }
    }
}
