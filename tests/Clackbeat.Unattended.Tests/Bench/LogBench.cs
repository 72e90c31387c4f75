using System.Diagnostics;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Season.Store;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.Site.Quantities;
using Clackbeat.Unattended.Live;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Surroundings;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;

namespace Clackbeat.Unattended.Tests.Bench;

/// <summary>A log with virtual rams on virtual loggers under a clock that doesn't wait.</summary>
internal sealed class LogBench : IDisposable
{
    public static readonly DateTimeOffset Start = new(2026, 3, 1, 0, 7, 0, TimeSpan.Zero);
    private static readonly RamSite Template = SiteFile.Parse(SiteTemplate.Text(Units.Metric), "the template");

    private static readonly TimeSpan LongestStandstill = TimeSpan.FromMilliseconds(500);

    private readonly TemporaryFolder? _own;
    private readonly string _folder;
    private readonly List<LogNews> _news = [];
    private readonly Dictionary<string, LockstepLine> _lines = [];
    private readonly Stopwatch _standstill = Stopwatch.StartNew();
    private long _lastClock;

    /// <summary>Makes a bench.</summary>
    /// <param name="folder">Where it works; left out: in a folder of its own that goes with it.</param>
    public LogBench(string? folder = null) => _folder = folder ?? (_own = new TemporaryFolder()).Path;

    /// <summary>Ports as they are now: name to line.</summary>
    public Dictionary<string, LockstepLine> Ports { get; } = [];

    public BenchClock Clock { get; } = new(Start);

    public LoopedRam Ram { get; } = new(Template);

    public long FreeBytes { get; set; } = 100_000_000_000;

    public Func<string, ISeasonStore>? OpenStore { get; set; }

    public string Store => System.IO.Path.Combine(_folder, "season.db");

    public string Folder => System.IO.Path.Combine(_folder, "log");

    public string Bursts => System.IO.Path.Combine(Folder, "bursts");

    public IReadOnlyList<LogNews> News
    {
        get
        {
            lock (_news)
            {
                return [.. _news];
            }
        }
    }

    /// <summary>A ram of its own name.</summary>
    public static RamSettings RamOn(string? port, string name = "mill") =>
        new("ram.toml", Template with { Name = name }, port, null, SerialLine.UsualBaud);

    /// <summary>A logger on a port; 250 samples a second keep a month short.</summary>
    public LockstepLine Plug(string port, string device = "virtual1")
    {
        SensorModel sensor = new() { Conversion = SiteSensing.ConversionOf(Template), NoiseCounts = 1.5 };
        var line = new LockstepLine(port, Clock, new PressureConverter(Ram.At, sensor, device.GetHashCode(StringComparison.Ordinal)), new VirtualLoggerOptions
        {
            DeviceId = device,
            Settings = new Logger.LoggerSettings { PeriodMicroseconds = 4000 },
        });
        _lines[device] = line;
        return Ports[port] = line;
    }

    public LogSettings Settings(params RamSettings[] rams) => new()
    {
        Store = Store,
        Folder = Folder,
        Rams = rams,
        Every = TimeSpan.FromMinutes(15),
        Length = TimeSpan.FromSeconds(20),
        Between = new BetweenSettings { Watch = false },
    };

    /// <summary>Runs the log for so long on the bench's clock; whatever a test does at a time happens at it.</summary>
    public void Run(LogSettings settings, TimeSpan length, params (TimeSpan At, Action Do)[] events)
    {
        using var stop = new CancellationTokenSource();
        long began = Clock.GetTimestamp();
        Queue<(TimeSpan At, Action Do)> coming = new(events.OrderBy(e => e.At));
        LockstepLine[] lines = [.. _lines.Values];
        var world = new LogWorld
        {
            OpenStore = OpenStore ?? (path => SqliteSeasonStore.Open(path, create: true)),
            Program = "test",
            Time = Clock,
            Line = (port, _) => Ports.TryGetValue(port, out LockstepLine? line) ? line : new NoLine(port),
            Ports = () => [.. Ports.Keys],
            FreeBytes = _ => FreeBytes,
            Wait = (span, _) => Wait(span, lines),
            LookEvery = TimeSpan.FromMilliseconds(5),
        };
        Clock.Moved = () =>
        {
            while (coming.TryPeek(out (TimeSpan At, Action Do) next) && Clock.GetElapsedTime(began) >= next.At)
            {
                coming.Dequeue().Do();
            }

            if (Clock.GetElapsedTime(began) >= length)
            {
                stop.Cancel();
            }
        };
        using var run = new LogRun(settings, world, _ => [new RecordingDocument(DocumentRole.Site, "ram.toml", "[site]")])
        {
            News = news =>
            {
                lock (_news)
                {
                    _news.Add(news);
                }
            },
        };
        Task running = Task.Factory.StartNew(() => run.Run(stop.Token), CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
        try
        {
            Assert.True(running.Wait(TimeSpan.FromMinutes(Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1" ? 180 : 4)), "the log hangs");
        }
        catch (AggregateException failure)
        {
            throw failure.GetBaseException();
        }
        finally
        {
            Clock.Moved = null;
        }
    }

    // A ram that waits must not run off with the clock while another's logger moves it. Where nothing has moved it for a while,
    // on a machine that is busy with something else, it moves it all the same: who waits for an answer must see time pass.
    private void Wait(TimeSpan span, LockstepLine[] lines)
    {
        if (lines.Length > 1)
        {
            Thread.Sleep(2);
        }

        if (lines.Length < 2 || !lines.Any(l => l.IsInUse) || HasStoodStill())
        {
            Clock.Advance(span);
        }
    }

    private bool HasStoodStill()
    {
        lock (_standstill)
        {
            long now = Clock.GetTimestamp();
            if (now != _lastClock)
            {
                _lastClock = now;
                _standstill.Restart();
            }

            return _standstill.Elapsed > LongestStandstill;
        }
    }

    public IReadOnlyList<BurstState> Stored(string ram = "mill")
    {
        using var store = SqliteSeasonStore.Open(Store, create: true);
        return store.States(ram, TimeSpanUtc.All);
    }

    public IReadOnlyList<SeasonBurst> StoredWhole(string ram = "mill")
    {
        using var store = SqliteSeasonStore.Open(Store, create: true);
        return [.. store.Bursts(ram, TimeSpanUtc.All)];
    }

    public string[] Files(string pattern = "*.cbrec") => Directory.GetFiles(Bursts, pattern, SearchOption.AllDirectories);

    public bool Said(string words) => News.Any(n => n.Words.Contains(words, StringComparison.Ordinal));

    public void Dispose()
    {
        foreach (LockstepLine line in _lines.Values)
        {
            line.Dispose();
        }

        _own?.Dispose();
    }

    private sealed class NoLine(string name) : ILineOpener
    {
        public string Name => name;

        public Stream Open() => throw new LineException(LineFault.Missing, Fact.Of("line.missing", ("port", name)), null);
    }
}
