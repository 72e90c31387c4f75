using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Recording.Reading;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Site.Physics;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Clackbeat.Watch.Live;
using Clackbeat.Watch.Recordings;
using Clackbeat.Watch.Sources;

namespace Clackbeat.Watch.Tests;

/// <summary>
/// Recording while watching, through the firmware's own source and a line: the file is a whole recording of what was
/// watched, though it begins and ends in mid-stream.
/// </summary>
public sealed class DeskTests : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(40);

    private readonly string _folder = Directory.CreateTempSubdirectory("clackbeat-desk-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact(Timeout = 120_000)]
    public async Task A_recording_begun_in_mid_stream_is_whole_and_holds_the_marks_and_the_site()
    {
        using var desk = new RecordingDesk(
            _folder, [new RecordingDocument(DocumentRole.Site, "ram.toml", "site = 1")], "test", TimeProvider.System);
        using Watched watched = new(desk);
        await watched.Until(v => v.NewestS > 1.5);
        Assert.True(desk.CanRecord);
        DeskRecording begun = desk.Begin();
        Assert.Same(begun, desk.Begin());
        double fromS = await watched.Until(v => true);
        double markS = await watched.Until(v => v.NewestS > fromS + 1);
        Assert.True(desk.Mark("Weight changed"));
        await watched.Until(v => v.NewestS > fromS + 2.5);
        Assert.Same(begun, desk.End());
        Assert.Null(desk.End());

        var scan = RecordingScan.Of(begun.Path);
        Assert.Equal(Completeness.Complete, scan.Completeness);
        Assert.Empty(RecordingFacts.Of(scan));
        Assert.Equal(begun.Samples, scan.Samples);
        Assert.InRange(scan.Samples, 2000, 6000);
        SessionFacts session = Assert.Single(scan.Sessions);
        Assert.Equal([DocumentRole.Site, DocumentRole.Mark], session.Documents.Select(d => d.Role));
        Assert.Equal("Weight changed", session.Documents[1].Text);

        // The recording begins at the sample that was newest when it was asked for; threads and pieces cost some tenths.
        RecordedMark mark = Assert.Single(scan.Marks);
        Assert.Equal(("Weight changed", true), (mark.Words, Math.Abs(mark.TimeS - (markS - fromS)) < 0.5));
    }

    [Fact(Timeout = 120_000)]
    public async Task What_is_watched_is_what_the_ram_does()
    {
        using var desk = new RecordingDesk(_folder, [], "test", TimeProvider.System);
        using Watched watched = new(desk);
        await watched.Until(v => v.Beats.Count >= 3);
        LiveView view = watched.View();
        double truthS = watched.Truth.Average(b => b);
        Assert.All(view.Beats, b => Assert.InRange(b.IntervalS, 0.9 * truthS, 1.1 * truthS));
        Assert.Equal(0, view.Health.LostSamples + view.Health.SkippedSamples);
    }

    [Fact]
    public void Without_a_logger_nothing_can_be_recorded_and_a_mark_is_kept_nowhere()
    {
        using var desk = new RecordingDesk(_folder, [], "test", TimeProvider.System);
        Assert.False(desk.CanRecord);
        Assert.Throws<InvalidOperationException>(desk.Begin);
        Assert.False(desk.Mark("x"));
    }

    /// <summary>A virtual ram behind a virtual logger, watched as fast as it can be computed.</summary>
    private sealed class Watched : IDisposable
    {
        private readonly CancellationTokenSource _stop = new();
        private readonly ServedLogger _logger;
        private readonly LivePipeline _pipeline = new(Rams.Site, TimeProvider.System);
        private readonly Task _run;
        private readonly List<double> _intervals = [];

        public Watched(RecordingDesk desk)
        {
            RamDesign design = RamDesigner.Design(Rams.Site);
            var ram = new RamSimulation(design.Ram, RamConverter.Continuous(design.Sensor));
            ram.BeatEnded += b => _intervals.Add(b.IntervalS);
            SensorConversion conversion = SiteSensing.ConversionOf(Rams.Site);
            _logger = VirtualLogger.VirtualLogger.Connect(
                RamConverter.Of(ram, new SensorModel { Conversion = conversion }), new VirtualLoggerOptions(), _stop.Token);
            var source = new LoggerSource(new Line(_logger.HostStream!), Rams.Site, new(), desk, SourceKind.Virtual);
            _run = Task.Run(() => source.Run(_pipeline, _stop.Token));
        }

        public IReadOnlyList<double> Truth => _intervals;

        public LiveView View()
        {
            (long column, int beat) = (long.MaxValue - 1, -1);
            return _pipeline.Look(ref column, ref beat);
        }

        public async Task<double> Until(Func<LiveView, bool> isSo)
        {
            DateTime end = DateTime.UtcNow + Patience;
            while (!isSo(View()))
            {
                Assert.True(DateTime.UtcNow < end, "It did not come in time.");
                await Task.Delay(20);
            }

            return View().NewestS;
        }

        public void Dispose()
        {
            _stop.Cancel();
            _run.Wait(Patience);
            _logger.Dispose();
            _stop.Dispose();
        }
    }

    private sealed class Line(System.IO.Stream stream) : ILineOpener
    {
        public string Name => "a line";

        public System.IO.Stream Open() => stream;
    }
}
