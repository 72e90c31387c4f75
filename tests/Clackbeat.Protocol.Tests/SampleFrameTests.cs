using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Samples;
using CsCheck;

namespace Clackbeat.Protocol.Tests;

/// <summary>SPEC §6 for frames of any content.</summary>
public class SampleFrameTests
{
    private static readonly Gen<Action<SampleFrameWriter>> Points = Gen.OneOf(
        Gen.Select(Gen.Int[0, 4095], Gen.Int[-256, 255]).Select<(int, int), Action<SampleFrameWriter>>(s => w => w.AddSample(s.Item1, s.Item2)),
        Gen.Select(Gen.Int[0, 16383], Gen.Int[-(1 << 27), (1 << 27) - 1]).Select<(int, int), Action<SampleFrameWriter>>(s => w => w.AddLate(s.Item1, s.Item2)),
        Gen.Select(Gen.Int[1, (1 << 21) - 1], Gen.Int[1, 5]).Select<(int, int), Action<SampleFrameWriter>>(s => w => w.AddSkip(s.Item1, s.Item2)));

    private static readonly Gen<Action<SampleFrameWriter>> Readings =
        Gen.Select(Gen.Int[1, 7], Gen.Int[0, 16383]).Select<(int, int), Action<SampleFrameWriter>>(r => w => w.AddReading(r.Item1, r.Item2));

    private static readonly Gen<(int Sequence, long Base, int Period)> Grids = Gen.Select(
        Gen.Int[0, 0xFFFF],
        Gen.OneOf(Gen.Long[0, (1L << 49) - 1], Gen.Const(0L), Gen.Const((1L << 49) - 1)),
        Gen.OneOf(Gen.Int[200, 1_000_000], Gen.Const(1), Gen.Const((1 << 21) - 1)));

    [Fact]
    public void AFrameOfAnyEntriesSaysWhatWasPutIntoIt() =>
        Gen.Select(Grids, Gen.Select(Points, Readings.Array[0, 2]).Array[0, 60]).Sample((grid, points) =>
        {
            SampleFrameWriter writer = new(isWide: false);
            writer.Open(grid.Sequence);
            Assert.True(writer.IsEmpty);
            int put = 0;
            for (int i = 0; i < points.Length && !writer.IsFull; i++)
            {
                points[i].Item1(writer);
                Array.ForEach(points[i].Item2, reading => reading(writer));
                Assert.False(writer.IsEmpty);
                put += 1 + points[i].Item2.Length;
            }

            byte[] body = Assert.Single(Decoding.Bodies(Closed(writer, grid.Base, grid.Period)));
            Assert.Equal(ByThePage.Entries(body), Read(body, out SampleFrameReader reader));
            Assert.Equal(put + 1, ByThePage.Entries(body).Count);
            Assert.Equal(grid, (reader.Sequence, reader.BaseMicroseconds, reader.PeriodMicroseconds));
        }, iter: 1000);

    // A grid point needs 13 bytes at most: a late sample (7) and a reading of two other channels (3 each). Behind the entries come
    // period (4), base (8), CRC (4) and the delimiter.
    [Fact]
    public void AFrameIsFullAsSoonAsTheLargestGridPointMightNotFitAndNoSooner() =>
        Points.Array[60].Sample(points =>
        {
            SampleFrameWriter writer = new(isWide: false);
            writer.Open(0);
            foreach (Action<SampleFrameWriter> point in points.TakeWhile(_ => !writer.IsFull))
            {
                point(writer);
                Assert.Equal(writer.Length + 13 + 4 + 8 + 4 + 1 > FrameLimits.MaxFrame, writer.IsFull);
            }

            Assert.True(writer.IsFull);
            Assert.InRange(Closed(writer, 0, 1000).Length, 1, FrameLimits.MaxFrame);
        }, iter: 300);

    [Fact]
    public void TheOrdinarySampleSaysItselfWhetherTheFrameIsFull()
    {
        SampleFrameWriter writer = new(isWide: false);
        writer.Open(7);
        bool full = false;
        for (int i = 0; !full; i++)
        {
            full = writer.AddSample(i, 0);
            Assert.Equal(writer.IsFull, full);
        }

        Read(Assert.Single(Decoding.Bodies(Closed(writer, 0, 1000))), out SampleFrameReader reader);
        Assert.Equal(7, reader.Sequence);
    }

    // SPEC §3.1 and §6: a reader steps over what it doesn't know, and looks for base and period wherever they stand.
    [Fact]
    public void EntriesInAnyOrderWithUnknownOnesBetweenAreReadAsThePageSays() =>
        Gen.Select(Grids, Entry.Array[0, 12], Gen.Int[0, 1000], Gen.Int[0, 1000]).Sample((grid, entries, first, second) =>
        {
            List<byte[]> pieces = [.. entries];
            pieces.Insert(first % (pieces.Count + 1), [0x71, .. ByThePage.Sevens(grid.Base, 7)]);
            pieces.Insert(second % (pieces.Count + 1), [0x32, .. ByThePage.Sevens(grid.Period, 3)]);
            byte[] body = [Kinds.Samples, 0, 0, .. pieces.SelectMany(p => p)];
            Assert.Equal(ByThePage.Entries(body), Read(body, out _));
        }, iter: 3000);

    [Theory]
    [InlineData("22 00 00 80 80 80 71 80 80 80 80 80 80 80", "no period")]
    [InlineData("22 00 00 80 80 80 32 E8 87 80", "no base")]
    [InlineData("22 00 00 32 80 80 80 71 80 80 80 80 80 80 80", "a period of nothing")]
    [InlineData("22 00 00 00 32 E8 87 80 71 80 80 80 80 80 80 80", "a tag of zero")]
    [InlineData("22 00 00 32 E8 87 80 71 80 80 80 80 80 80 80 80 80", "a sample cut short")]
    [InlineData("22 00 00 32 E8 87 80 71 80 80 80 80 80 80 80 61 80 80 80 80 80", "a late sample cut short")]
    [InlineData("22 00 00 32 E8 87 80 71 80 80 80 80 80 80", "a base cut short")]
    [InlineData("23 00 00 32 E8 87 80 71 80 80 80 80 80 80 80", "another kind")]
    [InlineData("22 00", "no sequence")]
    public void AFrameWithoutItsGridOrWithADamagedEntryIsRefusedWhole(string hex, string why)
    {
        byte[] body = Convert.FromHexString(hex.Replace(" ", "", StringComparison.Ordinal));
        Assert.False(new SampleFrameReader().TryOpen(body, body.Length), why);
    }

    [Fact]
    public void AFrameOfAGridAloneIsReadAndHoldsNothing()
    {
        byte[] body = [Kinds.Samples, 1, 0, 0x32, .. ByThePage.Sevens(1000, 3), 0x71, .. ByThePage.Sevens(0, 7)];
        Assert.Equal(new PageEntry("next point", 0, 0, 0), Assert.Single(Read(body, out SampleFrameReader reader)));
        Assert.Equal(1, reader.Sequence);
    }

    private static readonly Gen<byte> Top = Gen.Int[0x80, 0xFF].Select(v => (byte)v);

    // Any tag but zero, base and period, with its bytes.
    private static readonly Gen<byte[]> Entry = Gen.OneOf(
        Top.Array[3],
        Gen.Int[1, 0x7F].Where(tag => tag is not 0x71 and not 0x32).SelectMany(tag => Top.Array[tag >> 4].Select(rest => (byte[])[(byte)tag, .. rest])));

    internal static byte[] Closed(SampleFrameWriter writer, long baseMicroseconds, int period)
    {
        writer.BeginClose(baseMicroseconds, period);
        for (int before = writer.Length; !writer.CloseStep(); before = writer.Length)
        {
            Assert.InRange(writer.Length - before, 1, 3);
        }

        return writer.Buffer[..writer.Length];
    }

    internal static List<PageEntry> Read(byte[] body, out SampleFrameReader reader)
    {
        reader = new();
        Assert.True(reader.TryOpen(body, body.Length));
        List<PageEntry> entries = [];
        while (reader.Next())
        {
            entries.Add(reader.Kind switch
            {
                EntryKind.Sample => new("sample", reader.TimeMicroseconds, reader.Counts, reader.Channel),
                EntryKind.Skip => new("skip", reader.TimeMicroseconds, reader.Points, reader.Reason),
                _ => new("reading", reader.TimeMicroseconds, reader.Counts, reader.Channel),
            });
        }

        entries.Add(new("next point", reader.NextPointMicroseconds, 0, 0));
        return entries;
    }
}
