using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Link;
using Clackbeat.Site;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;

namespace Clackbeat.Logger.Tests;

/// <summary>Faults ordered from the virtual logger, seen from the host's end of the line.</summary>
public class FaultTests
{
    private const double LengthS = 4;
    private static readonly SensorModel Sensor = new() { NoiseCounts = 0 };

    [Fact(Timeout = 60_000)]
    public async Task ARebootInTheMiddleOfAFrameIsNoticedAndSamplesComeAgain()
    {
        using Bench bench = new(new VirtualFaults { RebootAtS = 2 });
        List<LoggerSample> before = await Task.Run(() => bench.CaptureUntil(_ => bench.Link.Reader.Losses.Restarts > 0));
        before.AddRange(await Task.Run(bench.Drain));
        Assert.Equal(1, bench.Link.Reader.Losses.Restarts);
        Assert.True(bench.Link.Reader.Losses.DiscardedPieces >= 1, "the half frame is counted");
        Assert.All(before, s => AssertTrue(s, 0));
        bench.Link.Start(new StartCommand());
        Assert.True(await Task.Run(() => bench.CaptureUntil(BeganAnew).Any(IsEarly)), "the clock began anew");

        bool IsEarly(LoggerSample s) => s.DeviceTimeMicroseconds < before[^1].DeviceTimeMicroseconds;
        bool BeganAnew(List<LoggerSample> samples) => samples.Count > 0 && IsEarly(samples[^1]);
    }

    [Fact(Timeout = 60_000)]
    public async Task AThrowingConverterIsToldInWordsAndTheDeviceStartsAnew()
    {
        using Bench bench = new(new VirtualFaults { ConverterThrowsAtS = 2 });
        await Task.Run(() => bench.CaptureUntil(_ => bench.Link.Reader.Losses.Restarts > 0));
        Assert.Equal("converter failed", bench.Link.Reader.LastFault);
        bench.Link.Start(new StartCommand());
        Assert.NotEmpty(await Task.Run(() => bench.CaptureUntil(s => s.Count > 100)));
    }

    [Fact(Timeout = 60_000)]
    public async Task ACutLineEndsTheLinkAndKeepsWhatCameBefore()
    {
        using Bench bench = new(new VirtualFaults { CutAtS = 2 });
        List<LoggerSample> samples = await Task.Run(() => bench.CaptureUntil(_ => false));
        Assert.True(bench.Link.HasEnded);
        Assert.True(samples.Count > 1000);
        Assert.All(samples, s => AssertTrue(s, 0));
    }

    [Fact(Timeout = 60_000)]
    public async Task FlippedBitsCostFramesThatAreCountedAndNeverGiveAWrongSample()
    {
        using Bench bench = new(new VirtualFaults { FlippedShare = 0.2 }, identify: false);
        bench.Link.Identify(TimeSpan.FromSeconds(20));
        List<LoggerSample> samples = bench.StartEvenIfTheAnswerIsHit();
        samples.AddRange(await Task.Run(() => bench.CaptureUntil(Long)));
        bench.Link.Stop();
        samples.AddRange(await Task.Run(bench.Drain));
        LossAccount losses = bench.Link.Reader.Losses;
        Assert.True(losses.LostFrames > 0 && losses.DiscardedPieces > 0);
        Assert.All(samples, s => AssertTrue(s, 0));

        // Every grid point between the first and the last sample is either here or in the account.
        long points = ((samples[^1].DeviceTimeMicroseconds - samples[0].DeviceTimeMicroseconds + 500) / 1000) + 1;
        Assert.Equal(points, samples.Count + losses.LostPoints + losses.SkippedPoints);
    }

    // A crystal that runs fast stamps times too far apart by just its error; counts stay true to the true time.
    [Fact(Timeout = 60_000)]
    public async Task DriftOfTheCrystalShowsInTheTimesAndInNothingElse()
    {
        const double driftPpm = 1000;
        using Bench bench = new(new VirtualFaults { ClockDriftPpm = driftPpm });
        List<LoggerSample> samples = await Task.Run(() => bench.CaptureUntil(Long));
        Assert.True(bench.Link.Reader.Losses.IsClean);
        Assert.All(samples, s => AssertTrue(s, driftPpm));
    }

    [Fact(Timeout = 60_000)]
    public async Task AStartThatTheLoggerRefusesSaysWhatItCanKeep()
    {
        using Bench bench = new(VirtualFaults.None, start: false);
        InputException refusal = await Task.Run(() => Assert.Throws<InputException>(
            () => bench.Link.Start(new StartCommand { PeriodMicroseconds = 5 })));
        Assert.Contains("5 µs", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("200 to 1000000 µs", refusal.Message, StringComparison.Ordinal);
    }

    // 29 samples in a frame of 109 bytes: at 86.8 µs a byte 326 µs a sample, and readings and reports besides. 5000 a second, which
    // need 200 µs, would pile up in the logger and be lost; a tenth above the line's own time is carried.
    [Theory(Timeout = 60_000)]
    [InlineData(200, true)]
    [InlineData(320, true)]
    [InlineData(360, false)]
    public async Task ARateThatTheLineCannotCarryIsRefused(uint periodMicroseconds, bool refused)
    {
        using Bench bench = new(VirtualFaults.None, start: false);
        Exception? refusal = await Task.Run(() => Record.Exception(
            () => bench.Link.Start(new StartCommand { PeriodMicroseconds = periodMicroseconds })));
        Assert.Equal(refused, refusal is InputException);
    }

    private static bool Long(List<LoggerSample> samples) => samples.Count > 1
        && samples[^1].DeviceTimeMicroseconds - samples[0].DeviceTimeMicroseconds > LengthS * 1e6;

    private static double PressurePa(double timeS) => 400e3 + (300e3 * Math.Sin(2 * Math.PI * 1.3 * timeS));

    // Rounding of the converter, and at most a microsecond of rounding of the time.
    private static void AssertTrue(LoggerSample sample, double driftPpm)
    {
        double trueS = sample.DeviceTimeMicroseconds * 1e-6 / (1 + (driftPpm * 1e-6));
        double ideal = Sensor.CountsAt(PressurePa(trueS));
        Assert.InRange(sample.Counts, ideal - 0.52, ideal + 0.52);
    }

    private sealed class Bench : IDisposable
    {
        private readonly ServedLogger _served;

        public Bench(VirtualFaults faults, bool identify = true, bool start = true)
        {
            PressureConverter wave = new(t => PressurePa(t), Sensor);
            _served = VirtualLogger.VirtualLogger.Connect(
                wave, new VirtualLoggerOptions { Pace = Pace.AsFastAsRead, Faults = faults }, CancellationToken.None);
            Link = LoggerLink.Over(_served.HostStream!);
            if (identify)
            {
                Link.Identify(TimeSpan.FromSeconds(10));
                if (start)
                {
                    Link.Start(new StartCommand());
                }
            }
        }

        public LoggerLink Link { get; }

        // The answer itself may be the frame that is hit; samples then come all the same.
        public List<LoggerSample> StartEvenIfTheAnswerIsHit()
        {
            List<LoggerSample> first = [];
            try
            {
                Link.Start(new StartCommand());
            }
            catch (InputException)
            {
                first.AddRange(Link.Take(TimeSpan.FromSeconds(1)) ?? throw new TimeoutException("neither answer nor samples"));
            }

            return first;
        }

        public List<LoggerSample> CaptureUntil(Predicate<List<LoggerSample>> enough)
        {
            List<LoggerSample> samples = [];
            DateTime end = DateTime.UtcNow.AddSeconds(20);
            while (!enough(samples) && !Link.HasEnded && DateTime.UtcNow < end)
            {
                samples.AddRange(Link.Take(TimeSpan.FromMilliseconds(100)) ?? []);
            }

            return samples;
        }

        public List<LoggerSample> Drain()
        {
            List<LoggerSample> rest = [];
            while (Link.Take(TimeSpan.FromSeconds(1)) is { } batch)
            {
                rest.AddRange(batch);
            }

            return rest;
        }

        public void Dispose()
        {
            Link.Dispose();
            _served.Dispose();
        }
    }
}
