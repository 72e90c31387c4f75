using Clackbeat.Recording.Files;
using Clackbeat.Season.Packets;
using Clackbeat.Season.Schedule;
using Clackbeat.Season.Store;
using Clackbeat.Site;
using Clackbeat.Unattended.Alerts;
using Clackbeat.Unattended.Delivery;
using Clackbeat.Unattended.Forwarding;
using Clackbeat.Unattended.Raw;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Surroundings;
using Clackbeat.Words;

namespace Clackbeat.Unattended.Live;

/// <summary>Hears what happens to a ram of the log.</summary>
internal interface IRamListener
{
    /// <summary>A burst was recorded, whether the store takes it now or later.</summary>
    void Heard(string ram);

    /// <summary>A burst is in the store.</summary>
    void Stored(SeasonBurst burst);

    /// <summary>A keeper should know this.</summary>
    void Tell(LogNews news);
}

/// <summary>What the loops of all rams share.</summary>
internal sealed record LogShared(
    StoreGate Store, DiskKeeper Disk, KnownLoggers Loggers, IReadOnlyList<RawFolder> Folders, Func<string, IReadOnlyList<RecordingDocument>> Documents);

/// <summary>
/// The unattended log of one or several rams on one host, a thread a ram. One log works in a folder at a time; a lock that dies
/// with its process says so.
/// </summary>
public sealed class LogRun : IRamListener, IDisposable
{
    private readonly LogSettings _settings;
    private readonly LogWorld _world;
    private readonly FileStream _lock;
    private readonly StoreGate _store;
    private readonly LogShared _shared;
    private readonly List<RamLoop> _loops = [];
    private readonly Lock _telling = new();
    private readonly AlertBook _book;
    private readonly AlertDesk _desk;
    private readonly IReadOnlyList<IWay> _ways;
    private readonly string? _spoiltBook;
    private bool _troubled;

    /// <summary>Makes a log; nothing is recorded before <see cref="Run"/>.</summary>
    /// <param name="settings">What to do.</param>
    /// <param name="world">What is around it.</param>
    /// <param name="documents">Texts that travel in the recordings of a site file.</param>
    /// <exception cref="InputException">Another log works in the folder, or the store is none.</exception>
    public LogRun(LogSettings settings, LogWorld world, Func<string, IReadOnlyList<RecordingDocument>> documents)
    {
        (_settings, _world) = (settings, world);
        string bursts = Path.Combine(settings.Folder, "bursts");
        FolderSync.Create(bursts);
        _lock = Lock(Path.Combine(settings.Folder, "log.lock"));
        _store = new StoreGate(OpenStore);
        RawFolder[] folders = [.. settings.Rams.Select(r => new RawFolder(bursts, r.Site.Name))];
        var disk = new DiskKeeper(folders, settings.Disk, world.FreeBytes, Precious);
        _ways = Ways.Of(settings.Alerts);
        _book = AlertBook.Open(settings.Folder, out _spoiltBook);
        _desk = new AlertDesk(settings, world, _store, disk, _book, _ways, Tell);
        _shared = new LogShared(_store, disk, new KnownLoggers(Path.Combine(settings.Folder, "loggers.json")), folders, documents);
    }

    /// <summary>Told what a keeper should know; one call at a time.</summary>
    public Action<LogNews>? News { get; set; }

    /// <summary>How every ram stands.</summary>
    public IReadOnlyList<RamStatus> Status => [.. _loops.Select(l => l.Status)];

    /// <summary>For how long the quietest of the loops has shown no sign of life; a supervisor may end a program that hangs.</summary>
    public TimeSpan QuietFor => _loops.Count == 0 ? TimeSpan.Zero : _loops.Max(l => _world.Time.GetElapsedTime(l.AliveAt));

    /// <summary>Logs until stopped.</summary>
    /// <param name="stop">Ends it in order: a burst under way is kept and stored.</param>
    /// <exception cref="InputException">The store is none.</exception>
    public void Run(CancellationToken stop)
    {
        if (_store.TryOpen() is { } fault)
        {
            Tell(new LogNews(null, Phrases.Say("unattended.store-away", ("why", fault)), true));
        }

        if (_spoiltBook is { } spoilt)
        {
            Tell(new LogNews(null, Phrases.Say("unattended.book-spoilt", ("file", spoilt)), true));
        }

        _loops.AddRange(_settings.Rams.Select(r => new RamLoop(r, _settings, _world, _shared, this)));
        Task[] running = [.. _loops.Select(l => Task.Factory.StartNew(() => l.Run(stop), CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default))];
        var delivering = Task.Run(() => new Deliverer(_book, _ways, _world.Time, Tell).Run(stop), CancellationToken.None);
        Task forwarding = _settings.Forward is { } forward ? Task.Run(() => Forward(forward, stop), CancellationToken.None) : Task.CompletedTask;
        var steps = new StepWatch(_world.Time);
        while (!Task.WaitAll(running, _world.LookEvery))
        {
            Guarded(_desk.Look);
            if (steps.Look() is { } step)
            {
                Tell(new LogNews(null, step > TimeSpan.Zero
                    ? Phrases.Say("unattended.clock-forward", ("step_s", step.TotalSeconds))
                    : Phrases.Say("unattended.clock-back", ("step_s", -step.TotalSeconds)), false));
            }
        }

        Task.WaitAll([delivering, forwarding], CancellationToken.None);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _store.Dispose();
        _lock.Dispose();
    }

    void IRamListener.Heard(string ram) => _desk.Heard(ram);

    void IRamListener.Stored(SeasonBurst burst) => Guarded(() => _desk.Stored(burst));

    void IRamListener.Tell(LogNews news) => Tell(news);

    private ISeasonStore OpenStore()
    {
        ISeasonStore own = _world.OpenStore(_settings.Store);
        return _settings.Forward is null ? own : new ForwardingSeasonStore(own, BurstOutbox.Open(Path.Combine(_settings.Folder, "forward.db")));
    }

    private async Task Forward(ForwardSettings forward, CancellationToken stop)
    {
        using var outbox = BurstOutbox.Open(Path.Combine(_settings.Folder, "forward.db"));
        using var refused = BurstOutbox.Open(Path.Combine(_settings.Folder, "refused.db"));
        using WebCarrier? web = forward.Web is null ? null : new WebCarrier(forward);
        var forwarder = new Forwarder(outbox, refused, (ICarrier?)web ?? new BrokerCarrier(forward), Tell)
        {
            Marks = () => _store.Use(store => _settings.Rams.SelectMany(r => store.Marks(r.Site.Name)).ToList()),
        };
        await forwarder.Run(stop).ConfigureAwait(false);
    }

    // What stands in the way of an alert must not end the log that would raise the next one.
    private void Guarded(Action alerts)
    {
        try
        {
            alerts();
            _troubled = false;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            if (!_troubled)
            {
                Tell(new LogNews(null, Phrases.Say("unattended.alerts-unkept", ("why", fault.Message)), true));
            }

            _troubled = true;
        }
    }

    private void Tell(LogNews news)
    {
        lock (_telling)
        {
            News?.Invoke(news);
        }
    }

    private List<(DateTimeOffset From, DateTimeOffset To)> Precious(string ram)
    {
        try
        {
            TimeSpan around = _settings.Disk.AroundAlert;
            return _store.Use(store =>
            {
                var spans = store.Marks(ram).Select(m => (m.AtUtc - around, m.AtUtc + around)).ToList();
                if (store.States(ram, TimeSpanUtc.All) is [var first, ..])
                {
                    spans.Add((first.AtUtc, first.AtUtc.AddDays(_settings.Disk.BaselineDays)));
                }

                return spans;
            }).Concat(_desk.Spans(ram)).ToList();
        }
        catch (Exception fault) when (StoreGate.IsFault(fault))
        {
            return [.. _desk.Spans(ram)];
        }
    }

    // EWOULDBLOCK of flock(2), which is 35 on macOS; on Windows a sharing violation. A full or read-only disk is none of these.
    private static bool IsTaken(IOException fault) => OperatingSystem.IsWindows()
        ? fault.HResult == unchecked((int)0x80070020)
        : fault.HResult == (OperatingSystem.IsMacOS() ? 35 : 11);

    private static FileStream Lock(string path)
    {
        try
        {
            return new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (IOException taken) when (IsTaken(taken))
        {
            throw InputException.Of(taken, "unattended.folder-taken", ("folder", Path.GetDirectoryName(path) ?? ""));
        }
    }
}
