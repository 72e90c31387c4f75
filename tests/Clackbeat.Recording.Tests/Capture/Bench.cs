using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Recording.Reading;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.Words;

namespace Clackbeat.Recording.Tests.Capture;

/// <summary>A virtual logger that measures a known wave, on a cable that can be pulled, and a recorder on its port.</summary>
internal sealed class Bench : IDisposable
{
    public static readonly SensorModel Sensor = new() { NoiseCounts = 0 };

    private readonly TemporaryFolder _folder = new();
    private readonly CancellationTokenSource _powerOff = new();
    private readonly CancellationTokenSource _stop = new();
    private readonly Task _logger;
    private readonly List<RecorderNews> _news = [];

    public Bench(VirtualLoggerOptions options)
    {
        Wire = new PluggedWire(Port, options.Pace == Pace.RealTime, _powerOff.Token);
        Wire.Plug();
        _logger = VirtualLogger.VirtualLogger.Run(new PressureConverter(t => PressurePa(t), Sensor), Wire, options, _powerOff.Token);
    }

    public PluggedWire Wire { get; }

    public string Port => _folder["ttyUSB0"];

    public string Path => _folder["record.cbrec"];

    public long Samples { get; private set; }

    public RecorderState State
    {
        get
        {
            lock (_news)
            {
                return _news.Count == 0 ? RecorderState.Asking : _news[^1].State;
            }
        }
    }

    public static VirtualLoggerOptions RealTime(VirtualFaults? faults = null) =>
        new() { Pace = Pace.RealTime, Faults = faults ?? VirtualFaults.None };

    public static double PressurePa(double timeS) => 400e3 + (300e3 * Math.Sin(2 * Math.PI * 1.3 * timeS));

    public Task<RecorderSummary> Record(TimeSpan? length = null, IRecordingStore? store = null, TimeProvider? time = null, ILineOpener? line = null) => Task.Factory.StartNew(
        () =>
        {
            using RecordingWriter writer = new(store ?? DiskStore.Create(Path), time ?? TimeProvider.System);
            Recorder recorder = new(line ?? new SerialLine(Port), Options(length), writer, time ?? TimeProvider.System)
            {
                News = news =>
                {
                    lock (_news)
                    {
                        _news.Add(news);
                    }
                },
                Progress = progress => Samples = progress.Samples,
            };
            return recorder.Run(_stop.Token);
        },
        CancellationToken.None,
        TaskCreationOptions.LongRunning,
        TaskScheduler.Default);

    public void Stop() => _stop.Cancel();

    public bool Said(RecorderState state, string words)
    {
        lock (_news)
        {
            return _news.Any(n => n.State == state && Catalogue.English.Say(n.What).Contains(words, StringComparison.Ordinal));
        }
    }

    public static void Until(Func<bool> reached, string what)
    {
        DateTime until = DateTime.UtcNow.AddSeconds(20);
        while (!reached())
        {
            Assert.True(DateTime.UtcNow < until, $"waited in vain until {what}");
            Thread.Sleep(2);
        }
    }

    /// <summary>The recording; every sample in it lies on the wave, and times only ever rise.</summary>
    public RecordingScan Read()
    {
        var scan = RecordingScan.Of(Path);
        SegmentFacts[] runs = [.. scan.Sessions.SelectMany(s => s.Segments)];
        long last = -1;
        long count = 0;
        SamplePass.Read(scan, samples =>
        {
            foreach (RecordedSample sample in samples)
            {
                Assert.True(sample.TimeMicroseconds > last);
                last = sample.TimeMicroseconds;
                count++;
                SegmentFacts run = runs.First(r => sample.TimeMicroseconds <= r.LastDeviceMicroseconds + r.ShiftMicroseconds);
                if (run == runs[0])
                {
                    // The time stamp is whole microseconds; half a count is the converter's own rounding.
                    double timeS = (sample.TimeMicroseconds - run.ShiftMicroseconds) * 1e-6;
                    Assert.InRange(sample.Counts, Sensor.CountsAt(PressurePa(timeS)) - 0.51, Sensor.CountsAt(PressurePa(timeS)) + 0.51);
                }
            }
        });
        Assert.Equal(scan.Samples, count);
        return scan;
    }

    public void Dispose()
    {
        _stop.Cancel();
        _powerOff.Cancel();
        _logger.Wait();
        _folder.Dispose();
        _stop.Dispose();
        _powerOff.Dispose();
    }

    private static RecorderOptions Options(TimeSpan? length) => new()
    {
        Length = length,
        Documents = [new RecordingDocument(DocumentRole.Site, "ram.toml", "[site]")],
        Program = "test",
        IdentifyPatience = TimeSpan.FromSeconds(1.5),
        RetryEvery = TimeSpan.FromMilliseconds(5),
        SilencePatience = TimeSpan.FromSeconds(1),
    };
}
