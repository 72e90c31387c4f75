using System.Globalization;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;
using Clackbeat.Records.Sources;
using Clackbeat.Season.Packets;
using Clackbeat.Season.Store;
using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.Unattended.Raw;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Surroundings;
using Clackbeat.Words;

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
            _news.Tell(Phrases.Say("unattended.remnants", ("bursts", remnants)), isTrouble: false);
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
                _news.Over("store", Phrases.Say("unattended.store-again"));
            }
            catch (Exception fault) when (StoreGate.IsFault(fault))
            {
                _news.Trouble("store", Phrases.Say("unattended.store-unusable", ("why", fault.Message)));
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
            _news.Over("clock", Phrases.Say("unattended.clock-is-set", ("bursts", dated)));
            if (unknown > 0)
            {
                _news.Tell(Phrases.Say("unattended.undatable", ("bursts", unknown)), isTrouble: true);
            }
        }
        else
        {
            _news.Trouble("clock", Phrases.Say("unattended.clock-wrong", ("date", _time.GetUtcNow().ToString("yyyy-MM-dd", CultureInfo.InvariantCulture))));
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

        _news.Over("read " + source, Phrases.Say("unattended.read-again", ("file", source)));
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
    private List<SeasonBurst>? SumUp(string path, string source)
    {
        bool storeFailed = false;
        bool IsKnown(byte[] hash)
        {
            storeFailed = true;
            bool known = _store.Use(s => s.Has(_ram.Site.Name, hash));
            storeFailed = false;
            return known;
        }

        RamSite SinceMarks()
        {
            storeFailed = true;
            IReadOnlyList<MaintenanceMark> marks = _store.Use(s => s.Marks(_ram.Site.Name));
            storeFailed = false;
            return _ram.Site with { FlowScale = _ram.Site.FlowScale?.After(marks.Select(m => DateOnly.FromDateTime(m.AtUtc.LocalDateTime))) };
        }

        try
        {
            RamSite site = _ram.Site.FlowScale is null ? _ram.Site : SinceMarks();
            return NewBurstsOf(path, source, site, IsKnown);
        }
        catch (Exception fault) when (!storeFailed && fault is IOException or UnauthorizedAccessException)
        {
            _news.Trouble("read " + source, Phrases.Say("unattended.cant-read-now", ("file", source), ("why", fault.Message)));
        }
        catch (Exception fault) when (!storeFailed && fault is not OutOfMemoryException)
        {
            _news.Tell(Phrases.Say("unattended.set-aside", ("file", source), ("why", fault.Message)), isTrouble: true);
            _raw.SetAside(path);
        }

        return null;
    }

    private static List<SeasonBurst> NewBurstsOf(string path, string source, RamSite site, Func<byte[], bool> isKnown)
    {
        if (!BlockReader.IsRecording(path))
        {
            throw InputException.Of("input.no-recording", ("file", path));
        }

        var scan = RecordingScan.Of(path);
        if (scan.Samples == 0)
        {
            return [];
        }

        RecordStart? start = RawFolder.TrueStartOf(path) is { } told ? new RecordStart(told, null) : null;
        var bursts = new List<SeasonBurst>();
        Task<SeasonBurst>? underWay = null;
        RecordIntake.Read(
            new RecordingSource(source, scan, site, start),
            site,
            isKnown,
            sumUp =>
            {
                Keep(bursts, underWay);
                underWay = Task.Factory.StartNew(sumUp, CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
            });
        Keep(bursts, underWay);
        return bursts;
    }

    private static void Keep(List<SeasonBurst> bursts, Task<SeasonBurst>? done)
    {
        if (done is not null)
        {
            bursts.Add(done.GetAwaiter().GetResult());
        }
    }

    // What the store has is safe there; that its file can't be moved holds nothing up.
    private void Settle(string path, string source)
    {
        try
        {
            _disk.Count(_raw.Settle(path));
            _news.Over("settle", Phrases.Say("unattended.moved-again"));
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            _news.Trouble("settle", Phrases.Say("unattended.cant-move", ("file", source), ("why", fault.Message)));
        }
    }

    // A server's bursts wait in a file beside while it can't be reached; the keeper should know, and needn't do anything in haste.
    private void TellOfServer()
    {
        if (_store.Use(s => (((s as ForwardingSeasonStore)?.Own ?? s) as BufferedSeasonStore)?.Trouble) is { } trouble)
        {
            _news.Trouble("server", Phrases.Say("unattended.server-away", ("why", trouble)));
        }
        else
        {
            _news.Over("server", Phrases.Say("unattended.server-again"));
        }
    }

    private void MakeRoom()
    {
        RoomMade made = _disk.MakeRoom();
        if (made.RemovedPrecious > 0)
        {
            _news.Trouble("precious", Phrases.Say("unattended.room-precious"));
        }

        if (made.Refused is { } refused)
        {
            _news.Trouble("room", Phrases.Say("unattended.room-refused", ("why", refused)));
        }
        else if (made.IsShort)
        {
            _news.Trouble("room", Phrases.Say("unattended.disk-full", ("free", ByteSize.Text(_disk.FreeBytes))));
        }
        else
        {
            _news.Over("room", Phrases.Say("unattended.room-again"));
        }
    }
}
