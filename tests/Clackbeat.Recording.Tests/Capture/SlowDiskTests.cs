using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Recording.Reading;
using Clackbeat.VirtualLogger.Wires;

namespace Clackbeat.Recording.Tests.Capture;

/// <summary>A disk that lets the recorder wait, as memory cards do: what the line gives meanwhile waits, and no logger is blamed.</summary>
public class SlowDiskTests
{
    /// <summary>Longer than a logger may be silent (1 s on the bench), and longer than until its port is opened anew (10 s).</summary>
    [SkippableTheory(Timeout = 60_000)]
    [InlineData(2.5, 0)]
    [InlineData(0.3, 30)]
    public async Task What_comes_while_the_disk_does_not_answer_is_kept_and_is_no_silence_of_the_logger(double stallS, double longerByTheClockS)
    {
        Skip.IfNot(PseudoTerminal.IsSupported, "this system has no pseudo-terminals");
        using Bench bench = new(Bench.RealTime());
        LaterTime time = new();
        using StallingStore store = new(DiskStore.Create(bench.Path), atFlush: 3, () =>
        {
            Thread.Sleep(TimeSpan.FromSeconds(stallS));
            time.Later(TimeSpan.FromSeconds(longerByTheClockS));
        });
        RecorderSummary summary = await bench.Record(TimeSpan.FromSeconds(stallS + 3), store, time);
        Assert.True(store.HasStalled);
        Assert.True(summary.IsWhole, string.Join(", ", summary.Losses));
        Assert.False(bench.Said(RecorderState.Silent, "") || bench.Said(RecorderState.LinkLost, ""));
        RecordingScan scan = bench.Read();
        Assert.Equal((Completeness.Complete, 0), (scan.Completeness, scan.MissingSamples));
        Assert.Empty(Assert.Single(scan.Sessions).Losses);
        Assert.InRange(scan.Samples, (long)((stallS + 3) * 1000), long.MaxValue);
    }

    [SkippableFact(Timeout = 60_000)]
    public async Task What_no_longer_fits_while_the_disk_does_not_answer_is_counted_and_told()
    {
        Skip.IfNot(PseudoTerminal.IsSupported, "this system has no pseudo-terminals");
        using Bench bench = new(Bench.RealTime());
        FloodedLine line = new(new SerialLine(bench.Port), floodBytes: 12 << 20);
        using StallingStore store = new(DiskStore.Create(bench.Path), atFlush: 3, () =>
        {
            line.Flood();
            Bench.Until(() => line.HasFlooded, "more came than waits");
        });
        RecorderSummary summary = await bench.Record(TimeSpan.FromSeconds(4), store, line: line);
        Assert.InRange(summary.Losses[LossCause.SlowHost].Bytes, 3 << 20, 5 << 20);
        RecordingScan scan = bench.Read();
        Assert.Equal(Completeness.Complete, scan.Completeness);
        Assert.Contains(scan.Sessions[0].Losses, l => l.Cause == LossCause.SlowHost && l.Bytes > 3 << 20);
        Assert.True(new FileInfo(bench.Path).Length < 1 << 20, "noise without end is not recorded");
    }

    private sealed class StallingStore(IRecordingStore inner, int atFlush, Action stall) : IRecordingStore
    {
        private int _flushes;

        public bool HasStalled => _flushes >= atFlush;

        public void Append(ReadOnlySpan<byte> bytes) => inner.Append(bytes);

        public void Flush()
        {
            inner.Flush();
            if (++_flushes == atFlush)
            {
                stall();
            }
        }

        public void Dispose() => inner.Dispose();
    }

    /// <summary>The system's clocks, set forward on demand.</summary>
    private sealed class LaterTime : TimeProvider
    {
        private long _later;

        public override long GetTimestamp() => base.GetTimestamp() + Interlocked.Read(ref _later);

        public override DateTimeOffset GetUtcNow() => base.GetUtcNow() + GetElapsedTime(0, Interlocked.Read(ref _later));

        public void Later(TimeSpan by) => Interlocked.Add(ref _later, (long)(by.TotalSeconds * TimestampFrequency));
    }

    /// <summary>A line on which noise comes as fast as it is read, once somebody asks for it.</summary>
    private sealed class FloodedLine(ILineOpener inner, long floodBytes) : ILineOpener
    {
        private long _left;
        private volatile bool _asked;

        public string Name => inner.Name;

        public TimeSpan Rest => TimeSpan.Zero;

        public bool HasFlooded => _asked && Interlocked.Read(ref _left) <= 0;

        public void Flood()
        {
            Interlocked.Exchange(ref _left, floodBytes);
            _asked = true;
        }

        public Stream Open() => new Passing(inner.Open(), buffer =>
        {
            if (Interlocked.Read(ref _left) <= 0)
            {
                return 0;
            }

            buffer.Fill(0x55);
            Interlocked.Add(ref _left, -buffer.Length);
            return buffer.Length;
        });
    }
}
