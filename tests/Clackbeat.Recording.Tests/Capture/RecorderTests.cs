using System.Globalization;
using System.Text.RegularExpressions;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Recording.Reading;
using Clackbeat.Site;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.VirtualLogger.Wires;
using Xunit.Abstractions;

namespace Clackbeat.Recording.Tests.Capture;

/// <summary>Recording goes on through what happens on a bank by a stream, and each loss is in the file.</summary>
public class RecorderTests(ITestOutputHelper output)
{
    // The full number takes minutes; CLACKBEAT_LONG=1 asks for it.
    private static readonly int Cycles = Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1" ? 1000 : 25;

    [SkippableFact(Timeout = 60_000)]
    public async Task A_clean_minute_is_complete_and_nothing_of_it_is_missing()
    {
        NeedsPorts();
        using Bench bench = new(new VirtualLoggerOptions { Pace = Pace.AsFastAsRead });
        RecorderSummary summary = await bench.Record(TimeSpan.FromSeconds(60));
        Assert.True(summary.IsWhole, string.Join(", ", summary.Losses));
        RecordingScan scan = bench.Read();
        Assert.Equal(Completeness.Complete, scan.Completeness);
        Assert.Equal(summary.Samples, scan.Samples);
        Assert.Equal(0, scan.MissingSamples);
        SegmentFacts run = Assert.Single(Assert.Single(scan.Sessions).Segments);
        Assert.InRange(scan.Samples, 60_000, (run.LastDeviceMicroseconds - run.FirstDeviceMicroseconds + 1500) / 1000);
    }

    [SkippableFact(Timeout = 3_600_000)]
    public async Task Unplugged_and_plugged_in_again_and_again_it_records_on_and_each_cut_is_in_the_file()
    {
        NeedsPorts();
        using Bench bench = new(Bench.RealTime());
        Task<RecorderSummary> recording = bench.Record();
        List<(int Descriptors, int Threads)> held = [];
        for (int i = 0; i < Cycles; i++)
        {
            if (i % Math.Max(1, Cycles / 10) == 0)
            {
                held.Add(Held());
            }

            Bench.Until(() => bench.State == RecorderState.Recording, $"it records, cycle {i}");
            await Task.Delay(40);

            // A cut before the first frame would leave the device's clock unknown.
            Bench.Until(() => i > 0 || bench.Samples > 0, "samples have come");
            bench.Wire.Unplug();
            Bench.Until(() => bench.State == RecorderState.LinkLost, $"it notices, cycle {i}");
            bench.Wire.Plug();
        }

        Bench.Until(() => bench.State == RecorderState.Recording, "it records at the end");
        await Task.Delay(300);
        bench.Stop();
        RecorderSummary summary = await recording;
        RecordingScan scan = bench.Read();
        Assert.Equal(Completeness.Complete, scan.Completeness);
        List<LossRecord> cuts = scan.Sessions[0].Losses.FindAll(l => l.Cause == LossCause.LinkCut);
        Assert.Equal(summary.Losses[LossCause.LinkCut].Records, cuts.Count);
        List<LossRecord> others = scan.Sessions[0].Losses.FindAll(l => l.Cause != LossCause.LinkCut && CutsIn(l) > 0);
        output.WriteLine($"{Cycles} cuts in {cuts.Count} losses, {cuts.Count(c => CutsIn(c) > 1)} of them of several cuts; {others.Count} cuts in a silence");
        Assert.Equal(Cycles, scan.Sessions[0].Losses.Sum(CutsIn));
        Assert.All(cuts, cut => Assert.True(cut.LengthS > 0 && cut.ToDeviceMicroseconds > cut.FromDeviceMicroseconds));
        AssertFillsTheTime(scan);

        // What each cycle left behind would be hundreds after hundreds of them; other tests run beside the short one.
        output.WriteLine($"descriptors and threads: {string.Join(", ", held)}; {scan.Samples} samples, {scan.MissingSamples} missing");
        Assert.InRange(held[^1].Descriptors - held[1].Descriptors, -200, 50);
        Assert.InRange(held[^1].Threads - held[1].Threads, -200, 50);
    }

    private static (int Descriptors, int Threads) Held() => (
        Directory.Exists("/proc/self/fd") ? Directory.GetFiles("/proc/self/fd").Length : 0,
        System.Diagnostics.Process.GetCurrentProcess().Threads.Count);

    [SkippableFact(Timeout = 60_000)]
    public async Task A_logger_that_reboots_in_the_middle_of_a_frame_is_started_again()
    {
        NeedsPorts();
        using Bench bench = new(Bench.RealTime(new VirtualFaults { RebootAtS = 1.5 }));
        RecorderSummary summary = await bench.Record(TimeSpan.FromSeconds(3));
        Assert.Equal(1, summary.Restarts);
        RecordingScan scan = bench.Read();
        Assert.Equal(2, scan.Sessions[0].Segments.Count);
        LossRecord restart = Assert.Single(scan.Sessions[0].Losses, l => l.Cause == LossCause.Restart);
        Assert.InRange(restart.LengthS!.Value, 0.001, 1.5);
        Assert.InRange(restart.Samples, 1, 1500);
        Assert.InRange(scan.Samples + scan.MissingSamples, 2900, 3300);
    }

    [SkippableFact(Timeout = 60_000)]
    public async Task Noise_on_the_line_costs_frames_and_each_is_accounted_for()
    {
        NeedsPorts();
        using Bench bench = new(Bench.RealTime(new VirtualFaults { NoiseShare = 0.1, FlippedShare = 0.05 }));
        RecorderSummary summary = await bench.Record(TimeSpan.FromSeconds(4));
        Assert.False(summary.IsWhole);
        RecordingScan scan = bench.Read();
        Assert.True(scan.MissingSamples > 0);
        AssertFillsTheTime(scan);
        Assert.Equal(summary.Losses[LossCause.Noise].Samples, scan.Sessions[0].Losses.Where(l => l.Cause == LossCause.Noise).Sum(l => l.Samples));
    }

    [SkippableFact(Timeout = 60_000)]
    public async Task A_wrong_device_that_floods_the_port_is_left_alone_until_the_logger_is_back()
    {
        NeedsPorts();
        using Bench bench = new(Bench.RealTime());
        Task<RecorderSummary> recording = bench.Record();
        Bench.Until(() => bench.State == RecorderState.Recording && bench.Samples > 200, "it records");
        bench.Wire.Unplug();
        Bench.Until(() => bench.State == RecorderState.LinkLost, "it notices");
        using (Flood flood = new(bench.Port))
        {
            Bench.Until(() => bench.Said(RecorderState.WrongDevice, "is no logger"), "it knows the wrong device");
        }

        long before = bench.Samples;
        bench.Wire.Plug();
        Bench.Until(() => bench.State == RecorderState.Recording && bench.Samples > before + 300, "it records again");
        bench.Stop();
        RecorderSummary summary = await recording;
        Assert.True(summary.Losses[LossCause.WrongDevice].Bytes > 1000);
        Assert.Equal(1, summary.Losses[LossCause.LinkCut].Records);
        Assert.Equal(Completeness.Complete, bench.Read().Completeness);
        Assert.True(new FileInfo(bench.Path).Length < 10 * summary.Samples, "the flood is not in the file");
    }

    [SkippableFact(Timeout = 60_000)]
    public async Task What_is_no_logger_at_the_first_meeting_is_said_to_be_none()
    {
        NeedsPorts();
        using TemporaryFolder folder = new();
        using Flood flood = new(folder["tty"]);
        using Bench bench = new(Bench.RealTime());
        bench.Wire.Unplug();
        File.CreateSymbolicLink(bench.Port, flood.PortPath);
        LineException refused = await Assert.ThrowsAsync<LineException>(() => bench.Record());
        Assert.Contains("is no logger", refused.Message, StringComparison.Ordinal);
    }

    [SkippableFact(Timeout = 60_000)]
    public async Task A_logger_of_a_newer_protocol_is_refused_with_both_versions_and_the_remedy()
    {
        NeedsPorts();
        using Bench bench = new(Bench.RealTime());
        bench.Wire.Unplug();
        using Flood newer = new(bench.Port, NewerHello());
        InputException refused = await Assert.ThrowsAsync<InputException>(() => bench.Record());
        string next = (ProtocolVersion.Number + 1).ToString(CultureInfo.InvariantCulture);
        Assert.Contains($"version {next}", refused.Message, StringComparison.Ordinal);
        Assert.Contains("Install a newer clackbeat", refused.Message, StringComparison.Ordinal);
    }

    [SkippableFact(Timeout = 60_000)]
    public async Task A_full_disk_ends_it_and_keeps_what_was_acknowledged()
    {
        NeedsPorts();
        using Bench bench = new(new VirtualLoggerOptions { Pace = Pace.AsFastAsRead });
        RecorderSummary summary = await bench.Record(null, new FullStore(DiskStore.Create(bench.Path), 150_000));
        Assert.Equal((EndReason.Disk, "no space left"), (summary.Reason, summary.DiskFault));
        RecordingScan scan = bench.Read();
        Assert.Equal(Completeness.Truncated, scan.Completeness);
        Assert.True(scan.Samples >= Math.Max(20_000, summary.Samples), $"{scan.Samples} of {summary.Samples}");
        Assert.True(summary.Losses.ContainsKey(LossCause.Disk));
    }

    [SkippableFact(Timeout = 60_000)]
    public async Task A_port_that_another_program_holds_is_said_to_be_busy()
    {
        NeedsPorts();
        using Bench bench = new(Bench.RealTime());
        using Stream other = new SerialLine(bench.Port).Open();
        LineException busy = await Assert.ThrowsAsync<LineException>(() => bench.Record());
        Assert.Equal(LineFault.Busy, busy.Fault);
    }

    [SkippableFact(Timeout = 60_000)]
    public async Task A_port_that_is_not_there_is_said_to_be_missing()
    {
        NeedsPorts();
        using Bench bench = new(Bench.RealTime());
        bench.Wire.Unplug();
        LineException missing = await Assert.ThrowsAsync<LineException>(() => bench.Record());
        Assert.Equal(LineFault.Missing, missing.Fault);
        Assert.Contains("clackbeat ports", missing.Message, StringComparison.Ordinal);
    }

    // Nothing appears or vanishes: what is there and what is said to be missing fill the time of the logger's clock, and
    // each missing sample is in one loss record. A grid begun anew takes a part of a period at each pause.
    private static void AssertFillsTheTime(RecordingScan scan)
    {
        SegmentFacts run = Assert.Single(scan.Sessions[0].Segments);
        List<LossRecord> losses = scan.Sessions[0].Losses;
        double periods = (run.LastDeviceMicroseconds - run.FirstDeviceMicroseconds) / 1000.0;
        int pauses = losses.Count(l => l.Cause == LossCause.Silence);
        Assert.InRange(periods - (scan.Samples + scan.MissingSamples - 1), -0.5, 0.5 + pauses);
        Assert.Equal(scan.MissingSamples, losses.Sum(l => l.Samples));
    }

    // Cuts with no sample between them are one loss, and so is a cut in a silence that came before it; how many they were
    // is said.
    private static int CutsIn(LossRecord loss) => Regex.Match(loss.Detail, @"the link was lost(?:,? (\d+) times)?") switch
    {
        { Success: false } => 0,
        { Groups: [_, { Success: true } times] } => int.Parse(times.Value, CultureInfo.InvariantCulture),
        _ => 1,
    };

    private static void NeedsPorts() => Skip.IfNot(PseudoTerminal.IsSupported, "this system has no pseudo-terminals");

    private static byte[] NewerHello()
    {
        FrameWriter writer = new();
        new Hello { Protocol = ProtocolVersion.Number + 1, Fingerprint = 1 }.Write(writer);
        return writer.Buffer[..writer.Length];
    }

    /// <summary>Something on a port that sends without end: noise, or the same bytes again and again.</summary>
    private sealed class Flood : IDisposable
    {
        private readonly PseudoTerminal _terminal = PseudoTerminal.Open(dropWhenFull: true, CancellationToken.None);
        private readonly Thread _thread;
        private readonly string _link;
        private volatile bool _over;

        public Flood(string link, byte[]? bytes = null)
        {
            _link = link;
            File.CreateSymbolicLink(link, _terminal.PortPath);
            _thread = new Thread(() =>
            {
                Random random = new(5);
                byte[] noise = new byte[100];
                while (!_over)
                {
                    random.NextBytes(noise);
                    _terminal.Write(bytes ?? noise);
                    Thread.Sleep(5);
                }
            });
            _thread.Start();
        }

        public string PortPath => _terminal.PortPath;

        public void Dispose()
        {
            _over = true;
            _thread.Join();
            _terminal.Dispose();
            File.Delete(_link);
        }
    }

    private sealed class FullStore(IRecordingStore inner, long room) : IRecordingStore
    {
        private long _left = room;

        public void Append(ReadOnlySpan<byte> bytes)
        {
            // A disk that fills up takes the first part of a write.
            inner.Append(bytes[..(int)Math.Min(bytes.Length, _left)]);
            _left -= bytes.Length;
            if (_left < 0)
            {
                throw new IOException("no space left");
            }
        }

        public void Flush() => inner.Flush();

        public void Dispose() => inner.Dispose();
    }
}
