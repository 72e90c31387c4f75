using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Samples;
using CsCheck;

namespace Clackbeat.Protocol.Tests;

/// <summary>Frames of wide samples hold and give back what SPEC §11 says.</summary>
public class WideSampleTests
{
    private static readonly Gen<Action<SampleFrameWriter>> Points = Gen.OneOf(
        Gen.Select(Gen.Int[0, 65535], Gen.Int[-2048, 2047]).Select<(int, int), Action<SampleFrameWriter>>(s => w => w.AddWideSample(s.Item1, s.Item2)),
        Gen.Select(Gen.Int[0, 65535], Gen.Int[-(1 << 27), (1 << 27) - 1]).Select<(int, int), Action<SampleFrameWriter>>(s => w => w.AddLate(s.Item1, s.Item2)),
        Gen.Select(Gen.Int[1, (1 << 21) - 1], Gen.Int[1, 5]).Select<(int, int), Action<SampleFrameWriter>>(s => w => w.AddSkip(s.Item1, s.Item2)));

    private static readonly Gen<Action<SampleFrameWriter>> Readings =
        Gen.Select(Gen.Int[1, 7], Gen.Int[0, 65535]).Select<(int, int), Action<SampleFrameWriter>>(r => w => w.AddReading(r.Item1, r.Item2));

    [Fact]
    public void AFrameOfAnyEntriesSaysWhatWasPutIntoIt() =>
        Gen.Select(Points, Readings.Array[0, 2]).Array[0, 60].Sample(points =>
        {
            SampleFrameWriter writer = new(isWide: true);
            writer.Open(7);
            int put = 0;
            for (int i = 0; i < points.Length && !writer.IsFull; i++)
            {
                points[i].Item1(writer);
                Array.ForEach(points[i].Item2, reading => reading(writer));
                put += 1 + points[i].Item2.Length;
            }

            byte[] frame = SampleFrameTests.Closed(writer, 1_234_567, 1000);
            Assert.InRange(frame.Length, 1, FrameLimits.MaxFrame);
            byte[] body = Assert.Single(Decoding.Bodies(frame));
            Assert.Equal(ByThePage.Frame(body), frame);
            Assert.Equal(ByThePage.Entries(body), SampleFrameTests.Read(body, out SampleFrameReader reader));
            Assert.Equal(put + 1, ByThePage.Entries(body).Count);
            Assert.Equal(7, reader.Sequence);
        }, iter: 1000);

    // A grid point needs 16 bytes at most: a late sample (8) and a reading of two other channels (4 each). Behind the entries come
    // period (4), base (8), CRC (4) and the delimiter.
    [Fact]
    public void AFrameIsFullAsSoonAsTheLargestGridPointMightNotFitAndNoSooner() =>
        Points.Array[60].Sample(points =>
        {
            SampleFrameWriter writer = new(isWide: true);
            writer.Open(0);
            foreach (Action<SampleFrameWriter> point in points.TakeWhile(_ => !writer.IsFull))
            {
                point(writer);
                Assert.Equal(writer.Length + 16 + 4 + 8 + 4 + 1 > FrameLimits.MaxFrame, writer.IsFull);
            }
        }, iter: 300);

    [Fact]
    public void TheOrdinarySampleSaysItselfWhetherTheFrameIsFull()
    {
        SampleFrameWriter writer = new(isWide: true);
        writer.Open(0);
        bool full = false;
        for (int i = 0; !full; i++)
        {
            full = writer.AddWideSample(i, 0);
            Assert.Equal(writer.IsFull, full);
        }
    }

    // SPEC §1: ten bits a byte. Frames as full as a stream makes them, one reading of the supply at each 32nd sample.
    [Fact]
    public void TheShortestPeriodLeavesEveryFrameTheTimeToDrain()
    {
        SampleFrameWriter writer = new(isWide: true);
        long bytes = 0;
        int samples = 0;
        for (; samples < 32_000; samples++)
        {
            if (samples == 0 || writer.IsFull)
            {
                bytes += samples == 0 ? 0 : SampleFrameTests.Closed(writer, 0, 1000).Length;
                writer.Open(0);
            }

            writer.AddWideSample(samples, 0);
            if (samples % 32 == 0)
            {
                writer.AddReading(Channels.Supply, 50_000);
            }
        }

        double needed = bytes * 1e7 / 115_200 / samples;
        Assert.InRange(SampleFrameWriter.LeastPeriodMicroseconds(115_200, 32, 0, isWide: true), needed, needed * 1.1);
    }

    [Theory]
    [InlineData("2C 00 00 32 E8 87 80 71 80 80 80 80 80 80 80 80 80 80", "a sample cut short")]
    [InlineData("2C 00 00 32 E8 87 80 71 80 80 80 80 80 80 80 72 80 80 80 80 80 80", "a late sample cut short")]
    [InlineData("2C 00 00 80 80 80 80 71 80 80 80 80 80 80 80", "no period")]
    public void ADamagedFrameIsRefusedWhole(string hex, string why)
    {
        byte[] body = Convert.FromHexString(hex.Replace(" ", "", StringComparison.Ordinal));
        Assert.False(new SampleFrameReader().TryOpen(body, body.Length), why);
    }
}
