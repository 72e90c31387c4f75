using System.Diagnostics;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Link;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.VirtualLogger.Wires;

namespace Clackbeat.Recording.Tests;

/// <summary>The whole way: pressure, counts, firmware, frames, a line, samples. The truth is the signal itself.</summary>
public class ChainTests
{
    private static readonly SensorModel Sensor = new() { NoiseCounts = 0 };

    [SkippableFact(Timeout = 60_000)]
    public async Task AMinuteOverASerialPortArrivesWholeAndFasterThanTime()
    {
        Skip.IfNot(PseudoTerminal.IsSupported, "this system has no pseudo-terminals");
        using ServedLogger served = VirtualLogger.VirtualLogger.Serve(
            Wave(), new VirtualLoggerOptions { Pace = Pace.AsFastAsRead }, CancellationToken.None);
        var watch = Stopwatch.StartNew();
        using var link = LoggerLink.Open(served.PortPath!);
        List<LoggerSample> samples = await Task.Run(() => Capture(link, 60));
        Assert.True(watch.Elapsed < TimeSpan.FromSeconds(30), $"a minute took {watch.Elapsed}");
        Assert.True(link.Reader.Losses.IsClean);
        Assert.Equal(60_000, samples.Count);
        AssertFollowsWave(samples);
    }

    [Fact(Timeout = 60_000)]
    public async Task TheInProcessLineCarriesTheSameSamples()
    {
        using ServedLogger served = VirtualLogger.VirtualLogger.Connect(
            Wave(), new VirtualLoggerOptions { Pace = Pace.AsFastAsRead }, CancellationToken.None);
        using var link = LoggerLink.Over(served.HostStream!);
        List<LoggerSample> samples = await Task.Run(() => Capture(link, 10));
        Assert.True(link.Reader.Losses.IsClean);
        Assert.Equal(10_000, samples.Count);
        AssertFollowsWave(samples);
    }

    [Fact(Timeout = 60_000)]
    public async Task StallsJitterAndNoiseCostNoTruth()
    {
        VirtualFaults faults = new()
        {
            JitterMicroseconds = 300,
            StallEveryS = 0.5,
            StallLengthS = 0.02,
            NoiseShare = 0.3,
        };
        using ServedLogger served = VirtualLogger.VirtualLogger.Connect(
            Wave(), new VirtualLoggerOptions { Pace = Pace.AsFastAsRead, Faults = faults }, CancellationToken.None);
        using var link = LoggerLink.Over(served.HostStream!);
        List<LoggerSample> samples = await Task.Run(() => Capture(link, 10));
        Assert.Equal(0, link.Reader.Losses.LostFrames);
        Assert.True(link.Reader.Losses.SkippedPoints > 0);
        AssertFollowsWave(samples);
    }

    private static PressureConverter Wave() => new(t => PressurePa(t), Sensor);

    private static double PressurePa(double timeS) => 400e3 + (300e3 * Math.Sin(2 * Math.PI * 1.3 * timeS));

    private static List<LoggerSample> Capture(LoggerLink link, double lengthS)
    {
        link.Identify(TimeSpan.FromSeconds(10));
        link.Start(new StartCommand());
        List<LoggerSample> samples = [];
        while (samples.Count == 0
            || samples[^1].DeviceTimeMicroseconds - samples[0].DeviceTimeMicroseconds < (lengthS * 1e6) + 50_000)
        {
            samples.AddRange(link.Take(TimeSpan.FromSeconds(5)) ?? throw new TimeoutException("no samples"));
        }

        link.Stop();
        long end = samples[0].DeviceTimeMicroseconds + (long)(lengthS * 1e6) - 500;
        return samples.TakeWhile(s => s.DeviceTimeMicroseconds < end).ToList();
    }

    // One count is the converter's own rounding; the time stamp is whole microseconds.
    private static void AssertFollowsWave(List<LoggerSample> samples)
    {
        foreach (LoggerSample sample in samples)
        {
            double ideal = Sensor.CountsAt(PressurePa(sample.DeviceTimeMicroseconds * 1e-6));
            Assert.InRange(sample.Counts, ideal - 0.51, ideal + 0.51);
        }
    }
}
