using Clackbeat.Logger.Tests.Alone;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualLogger.Device;

namespace Clackbeat.Logger.Tests;

/// <summary>A board measures itself: what it says is what the virtual board was charged with.</summary>
public sealed class BenchTests : IDisposable
{
    private readonly LoneBench _lone = new();

    public void Dispose() => _lone.Dispose();

    [Fact(Timeout = 60_000)]
    public async Task TheBenchSaysWhatTheBoardWasChargedWith()
    {
        DeviceCharges charges = new() { ConversionUs = 180, ClockReadUs = 7, SendUs = 90, SectorUs = 1000, SlowWriteEvery = 10, SlowWriteUs = 40_000 };
        _lone.Settings.WorksAlone = false;
        Bench bench = await Task.Run(() => Measure(charges));

        // What a board of 180, 7 and 90 µs must say; a reading of the clock stands at each end of what is measured.
        Assert.InRange(bench.ConversionNanoseconds, 180_000u, 180_100u);
        Assert.InRange(bench.ClockNanoseconds, 6_900u, 7_100u);
        Assert.InRange(bench.SendMicroseconds, 90u, 98u);

        // Without instructions a turn is its conversion and a few clock readings; 3 s at 1 kHz.
        Assert.InRange(bench.TurnMicroseconds, 180u, 230u);
        Assert.InRange(bench.WorstTurnMicroseconds, 360u, 600u);
        Assert.Equal((1000u, 0u), (bench.PeriodMicroseconds, bench.Lost));
        Assert.InRange(bench.Samples, 2999u, 3001u);
        Assert.InRange(bench.JitterNanoseconds, 500u, 7_000u);

        // A block is four sectors and two of the file table, a millisecond each; one in ten takes 40 ms more.
        Assert.InRange(bench.BlockMicroseconds, 6_000u, 13_000u);
        Assert.InRange(bench.WorstBlockMicroseconds, 46_000u, 46_100u);
        Assert.Equal(90_000u, bench.FreeMemoryBytes);
        Assert.Empty(_lone.Files);
    }

    // A card remembers it over sleep, and each burst's file carries it to the host.
    [Fact(Timeout = 60_000)]
    public async Task EveryFileThatComesLaterCarriesTheResult()
    {
        _lone.Settings.WorksAlone = false;
        Bench bench = await Task.Run(() => Measure(DeviceCharges.Inferred));
        _lone.Settings.WorksAlone = true;
        _lone.Run(2.5 * LoneBench.IntervalS);
        Assert.All([1u, 2u, 3u], n =>
        {
            byte[] told = _lone.Read(n).Others.Single(b => b[0] == Kinds.Bench);
            Bench kept = new();
            Assert.True(kept.TryRead(told, told.Length));
            Assert.Equal((bench.ConversionNanoseconds, bench.WorstTurnMicroseconds), (kept.ConversionNanoseconds, kept.WorstTurnMicroseconds));
        });
    }

    private Bench Measure(DeviceCharges charges)
    {
        using ServedLogger served = VirtualLogger.VirtualLogger.Connect(
            new LoneBench.TrueSeconds(), _lone.Options() with { Charges = charges }, CancellationToken.None);
        FrameWriter writer = new();
        writer.Begin(Kinds.AskBench);
        writer.End();
        served.HostStream!.Write(writer.Buffer, 0, writer.Length);
        FrameDecoder decoder = new();
        Bench bench = new();
        while (true)
        {
            int value = served.HostStream.ReadByte();
            if (value >= 0 && decoder.Push((byte)value) && bench.TryRead(decoder.Body, decoder.BodyLength))
            {
                // Nobody heard a sample, and the zeros between were no piece of anything.
                Assert.Equal(0, decoder.DiscardedPieces);
                return bench;
            }
        }
    }
}
