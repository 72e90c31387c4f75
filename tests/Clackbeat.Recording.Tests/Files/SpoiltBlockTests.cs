using Clackbeat.Protocol;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;
using Clackbeat.Recording.Tests.Collecting;
using Clackbeat.Words;

namespace Clackbeat.Recording.Tests.Files;

/// <summary>What is still good in a block that is not (recording-format §9).</summary>
public sealed class SpoiltBlockTests : IDisposable
{
    private const int PieceBytes = 1000;
    private const int HeadBytes = 56;
    private const int ChunkHeadBytes = 10;

    // A frame has at most 120 bytes, a sample three (protocol SPEC §1 and §6).
    private const int MostInAFrame = 40;

    private readonly TemporaryFolder _folder = new();
    private readonly byte[] _whole;
    private readonly List<long> _times;

    public SpoiltBlockTests()
    {
        LoneBench.FillCard(_folder["card"], 1, lengthS: 10);
        byte[] frames = File.ReadAllBytes(LoneBench.Files(_folder["card"]).Single().FullName);
        ManualTime time = new();
        using (RecordingWriter writer = new(DiskStore.Create(Recording), time))
        {
            writer.Begin(Header(), []);
            for (int at = 0; at < frames.Length; at += PieceBytes)
            {
                writer.AddBytes(frames.AsSpan(at, Math.Min(PieceBytes, frames.Length - at)), at);
                time.Pass(TimeSpan.FromSeconds(1));
                writer.FlushIfDue();
            }

            writer.End(EndReason.Asked, 0);
        }

        _whole = File.ReadAllBytes(Recording);
        Assert.Equal(Completeness.Complete, Scan(_whole, out _times).Completeness);
        Assert.InRange(_times.Count, 9_900, 10_100);
    }

    private string Recording => _folder["spoilt.cbrec"];

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_flipped_bit_among_frames_costs_one_frame_and_no_other()
    {
        (int at, int length) = Blocks()[10];
        for (int i = ChunkHeadBytes; i < length; i += 3)
        {
            byte[] flipped = [.. _whole];
            flipped[at + HeadBytes + i] ^= (byte)(1 << (i % 8));
            RecordingScan scan = Scan(flipped, out List<long> times);
            Assert.Equal((Completeness.Damaged, 1), (scan.Completeness, scan.MissingBlocks));
            Assert.True(scan.SavedSamples > 0);
            Assert.InRange(_times.Count - times.Count, 0, MostInAFrame);
            Assert.Equal(_times.Count - times.Count, scan.MissingSamples);
            Assert.Empty(times.Except(_times));
        }
    }

    [Fact]
    public void A_chunk_that_lies_about_its_length_costs_the_frames_over_its_edges()
    {
        (int at, _) = Blocks()[10];
        byte[] flipped = [.. _whole];
        flipped[at + HeadBytes + 8] ^= 0x40;
        RecordingScan scan = Scan(flipped, out List<long> times);
        Assert.InRange(_times.Count - times.Count, 1, 2 * MostInAFrame);
        Assert.Equal(_times.Count - times.Count, scan.MissingSamples);
        Assert.Contains("samples of spoilt blocks were good", Catalogue.English.Say(RecordingFacts.Of(scan)[0]), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(4)]
    [InlineData(25)]
    public void Good_frames_that_never_stood_there_are_not_taken(int other)
    {
        (int at, int length) = Blocks()[10];
        (int from, int same) = Blocks()[other];
        Assert.Equal(length, same);
        byte[] stale = [.. _whole];
        _whole.AsSpan(from + HeadBytes, length).CopyTo(stale.AsSpan(at + HeadBytes));
        RecordingScan scan = Scan(stale, out List<long> times);
        Assert.Equal((0, 1), (scan.SavedSamples, scan.MissingBlocks));
        Assert.Equal(times.Order(), times);
        Assert.Equal(_times.Count - times.Count, scan.MissingSamples);
    }

    [Fact]
    public void Behind_the_last_good_block_nothing_is_saved_for_it_may_never_have_been_written()
    {
        (int at, int length) = Blocks()[10];
        byte[] torn = _whole[..(at + HeadBytes + length + 4)];
        torn[^8] ^= 1;
        RecordingScan scan = Scan(torn, out _);
        Assert.Equal((Completeness.Truncated, 0), (scan.Completeness, scan.SavedSamples));
    }

    // Offset and payload length of the blocks of frames that hold a whole piece.
    private List<(int At, int Length)> Blocks()
    {
        List<(int, int)> found = [];
        using MemoryStream file = new(_whole);
        BlockReader blocks = new(file, "whole");
        while (blocks.Next() is { } block)
        {
            if (block.Head.Kind == BlockKind.Frames && block.Payload.Length == ChunkHeadBytes + PieceBytes)
            {
                found.Add(((int)block.Offset, block.Payload.Length));
            }
        }

        return found;
    }

    private RecordingScan Scan(byte[] content, out List<long> times)
    {
        File.WriteAllBytes(Recording, content);
        var scan = RecordingScan.Of(Recording);
        List<long> read = [];
        SamplePass.Read(scan, batch =>
        {
            foreach (RecordedSample sample in batch)
            {
                read.Add(sample.TimeMicroseconds);
            }
        });
        Assert.Equal(scan.Samples, read.Count);
        times = read;
        return scan;
    }

    private static SessionHeader Header() => new()
    {
        Source = SessionSource.Burst,
        Protocol = ProtocolVersion.Number,
        Fingerprint = ProtocolVersion.Fingerprint,
        Device = "7669727475616c31",
        Firmware = new Version(0, 1, 0),
        ConverterMax = 4095,
        Program = "test",
        Place = "test",
    };
}
