using System.Globalization;
using Clackbeat.Protocol;
using Clackbeat.Recording.Link;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.Watch.Live;
using Clackbeat.Watch.Recordings;
using Clackbeat.Watch.Sources;
using Clackbeat.Watch.Web;
using Xunit.Abstractions;

namespace Clackbeat.Browser;

/// <summary>What is promised in numbers, measured in a real browser. With CLACKBEAT_LONG=1 the long forms run.</summary>
[Collection(BrowserTests.Name)]
public sealed class MeasuredTests(Chromium chromium, ITestOutputHelper output)
{
    private static readonly bool IsLong = Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1";

    [SkippableFact(Timeout = 120_000)]
    public async Task A_step_of_the_pressure_at_2_kHz_is_on_the_screen_within_250_ms()
    {
        await chromium.SkipUnlessCalm();
        var source = new StepSource();
        using var stop = new CancellationTokenSource();
        using ServedLogger logger = VirtualLogger.VirtualLogger.Connect(
            source, new VirtualLoggerOptions { Settings = new() { PeriodMicroseconds = 500 } }, stop.Token);
        string folder = Directory.CreateTempSubdirectory("clackbeat-steps-").FullName;
        using var desk = new RecordingDesk(folder, [], "test", TimeProvider.System);
        await using WatchServer server = await WatchServer.Start(new WatchOptions
        {
            Site = Rams.Site,
            Source = new LoggerSource(new OpenLine(logger.HostStream!), Rams.Site, new(), desk, SourceKind.Virtual),
            Port = 0,
        });
        await using Window window = await chromium.Open(drawsFreely: true);
        await window.Go(server.Port);
        await window.Until("window.clackbeat?.stats.frames > 30");
        await window.Read<object>(
            """
            () => {
              window.steps = [];
              let was = null;
              (function look() {
                const pa = window.clackbeat.stats.edgePa;
                const is = pa === null ? was : pa > 200000;
                // By the next frame what was drawn in this one is on the screen.
                if (was !== null && is !== was) requestAnimationFrame(() => window.steps.push(Date.now()));
                was = is;
                requestAnimationFrame(look);
              })();
            }
            """);
        await window.Page.WaitForTimeoutAsync(IsLong ? 60_000 : 7_000);
        double[] seen = await window.Read<double[]>("window.steps");
        double[] took = [.. seen.Select(s => s - source.StepsMs.Last(t => t <= s)).Order()];
        output.WriteLine($"{took.Length} steps: median {took[took.Length / 2]:0} ms, 95 % within {took[(int)(0.95 * took.Length)]:0} ms, longest {took[^1]:0} ms");
        Assert.True(took.Length >= 8);
        Assert.InRange(took[took.Length / 2], 0, 250);
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>By the window's own clock, from the moment it was told to open the page until verdict, figures and curve stand.</summary>
    [SkippableFact(Timeout = 180_000)]
    public async Task The_first_useful_picture_stands_within_a_second_of_opening()
    {
        WatchServer server = await chromium.Healthy();
        await chromium.SkipUnlessCalm();

        // Once before, so that the program has its figures; a window that goes on drawing would be measured too.
        await using (Window before = await chromium.Open(drawsFreely: true))
        {
            await before.Go(server.Port);
            await before.Until("document.querySelectorAll('#tiles .number').length === 6");
        }

        double best = double.PositiveInfinity;
        for (int i = 0; i < 3; i++)
        {
            await using Window window = await chromium.Open(Screen.Phone, drawsFreely: true);
            Func<Task<double>> workS = await window.CountWork();
            await window.Go(server.Port);
            await window.Until("window.clackbeat?.stats.firstDrawnMs");
            double work = 1000 * await workS();
            double[] steps = await window.Read<double[]>(
                """
                () => {
                  const way = performance.getEntriesByType("navigation")[0];
                  const files = performance.getEntriesByType("resource").filter(f => f.name.includes("/page/")).map(f => f.responseEnd);
                  const { begunMs, firstDrawnMs } = window.clackbeat.stats;
                  return [way.requestStart, way.responseEnd, way.domInteractive, Math.max(...files), begunMs, firstDrawnMs];
                }
                """);
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"asked {steps[0]:0}, page there {steps[1]:0}, read {steps[2]:0}, files there {steps[3]:0}, scripts begun {steps[4]:0}, drawn {steps[5]:0} ms; work of the page {work:0} ms"));
            Assert.Equal(6, await window.Page.Locator("#tiles .number").CountAsync());
            best = Math.Min(best, steps[5]);
        }

        Assert.InRange(best, 1, 1000);
    }

    [SkippableFact(Timeout = 120_000)]
    public async Task The_page_draws_more_than_30_frames_a_second_with_a_processor_four_times_slower()
    {
        await chromium.SkipUnlessCalm(4);
        await using WatchServer server = await Chromium.Serve(PacedSource.Of(Rams.Simulation(2000), 12));
        await using Window window = await chromium.Open(Screen.Phone, drawsFreely: true);
        await window.Go(server.Port);
        await window.Until("window.clackbeat?.stats.frames > 30");
        await window.Throttle(4);
        await window.Page.WaitForTimeoutAsync(1000);
        double best = 0;
        for (int i = 0; i < 3 && best <= 30; i++)
        {
            best = Math.Max(best, await FramesPerSecond(window, 3));
        }

        output.WriteLine($"{best:0.0} frames a second at a quarter of the processor");
        Assert.True(best > 30, $"{best:0.0} frames a second");
    }

    [SkippableFact(Timeout = 1_200_000)]
    public async Task Memory_stays_flat_over_hours_of_streaming()
    {
        double hours = IsLong ? 8 : 1.0 / 6;
        double speed = IsLong ? 96 : 60;
        await using WatchServer server = await Chromium.Serve(PacedSource.Of(Rams.Loop(2000), speed));
        await using Window window = await chromium.Open(drawsFreely: true);
        await window.Go(server.Port);
        List<(double HostBytes, double PageBytes)> read = [];
        for (int quarter = 1; quarter <= 4; quarter++)
        {
            string untilS = (quarter * hours * 900).ToString(CultureInfo.InvariantCulture);
            await window.Until($"window.clackbeat?.stats.newestS > {untilS}", 600);
            read.Add((GC.GetTotalMemory(forceFullCollection: true), await window.HeapBytes()));
            output.WriteLine($"{quarter * hours / 4:0.##} h: host {read[^1].HostBytes / 1e6:0.0} MB, page {read[^1].PageBytes / 1e6:0.0} MB");
        }

        // Whatever is kept of each sample or beat would triple from the first quarter to the last.
        Assert.InRange(read[^1].HostBytes, 0, (1.3 * read[0].HostBytes) + 8e6);
        Assert.InRange(read[^1].PageBytes, 0, (1.3 * read[0].PageBytes) + 3e6);
    }

    private static async Task<double> FramesPerSecond(Window window, int seconds)
    {
        double before = await window.Read<double>("window.clackbeat.stats.frames");
        double beganMs = await window.Read<double>("performance.now()");
        await window.Page.WaitForTimeoutAsync(1000 * seconds);
        double frames = await window.Read<double>("window.clackbeat.stats.frames") - before;
        return 1000 * frames / (await window.Read<double>("performance.now()") - beganMs);
    }

    private sealed class OpenLine(System.IO.Stream stream) : ILineOpener
    {
        public string Name => "a line";

        public System.IO.Stream Open() => stream;
    }

    /// <summary>A pressure that steps up and down, and when the logger's converter first saw each step.</summary>
    private sealed class StepSource : IConverterSource
    {
        private const double HalfS = 0.35;

        private readonly SensorModel _sensor = new() { Conversion = Clackbeat.Site.Physics.SiteSensing.ConversionOf(Rams.Site) };
        private readonly List<double> _steps = [];
        private bool _wasHigh;

        public double[] StepsMs
        {
            get
            {
                lock (_steps)
                {
                    return [.. _steps];
                }
            }
        }

        public bool TryRead(int channel, double timeS, out int counts)
        {
            bool isHigh = (long)(timeS / HalfS) % 2 == 1;
            counts = (int)Math.Round(channel == Channels.Pressure ? _sensor.CountsAt(isHigh ? 4e5 : 1e4) : _sensor.SupplyCounts);
            if (channel == Channels.Pressure && isHigh != _wasHigh)
            {
                _wasHigh = isHigh;
                lock (_steps)
                {
                    _steps.Add((DateTime.UtcNow - DateTime.UnixEpoch).TotalMilliseconds);
                }
            }

            return channel is Channels.Pressure or Channels.Supply;
        }
    }
}
