using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;
using Clackbeat.Site;

namespace Clackbeat.Recording.Tests.Files;

/// <summary>
/// The reader against a file that a second encoder made from the format's page (Fixtures/make_golden.py: struct, zlib).
/// </summary>
public sealed class FormatTests : IDisposable
{
    private static readonly string Golden = Path.Combine(AppContext.BaseDirectory, "Fixtures", "golden.cbrec");

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void The_golden_recording_says_what_its_script_put_in()
    {
        var scan = RecordingScan.Of(Golden);
        Assert.Equal(Completeness.Complete, scan.Completeness);
        SessionFacts session = Assert.Single(scan.Sessions);
        SessionHeader header = session.Header!;
        Assert.Equal(("676f6c64656e3031", 3u, "0.1.0", "/dev/ttyUSB7"), (header.Device, header.Boot, header.Program, header.Place));
        Assert.Equal((1000u, 32, 4095), (header.PeriodMicroseconds, header.SupplyEvery, header.ConverterMax));
        RecordingDocument site = Assert.Single(session.Documents);
        Assert.Equal((DocumentRole.Site, "räm.toml", "[site]\nname = \"Fernhollow °\"\n"), (site.Role, site.Name, site.Text));
        LossRecord loss = Assert.Single(session.Losses);
        Assert.Equal((LossCause.LinkCut, 2099, 2.1, "the link was lost"), (loss.Cause, loss.Samples, loss.LengthS, loss.Detail));
        Assert.Equal((EndReason.TimeUp, 6, 1u), (session.End!.Reason, session.End.Samples, session.End.Losses));
    }

    [Fact]
    public void Its_frames_give_their_samples_though_one_is_cut_between_two_chunks()
    {
        List<(long, int)> samples = [];
        SamplePass.Read(RecordingScan.Of(Golden), batch =>
        {
            foreach (RecordedSample sample in batch)
            {
                samples.Add((sample.TimeMicroseconds, sample.Counts));
            }
        });
        Assert.Equal([(0, 100), (1000, 101), (2000, 102), (3000, 103), (4000, 200), (5000, 201)], samples);
    }

    [Fact]
    public void Every_flipped_bit_is_noticed_and_no_sample_is_ever_wrong()
    {
        byte[] golden = File.ReadAllBytes(Golden);
        int[] right = [100, 101, 102, 103, 200, 201];
        for (int at = 0; at < golden.Length; at++)
        {
            byte[] flipped = [.. golden];
            flipped[at] ^= (byte)(1 << (at % 8));
            RecordingScan scan = Scan(flipped, out List<int> counts);
            Assert.True(scan.Completeness != Completeness.Complete, $"byte {at}");
            Assert.True(counts.Count == 0 || counts.SequenceEqual(right), $"byte {at}");
        }
    }

    [Fact]
    public void Cut_anywhere_it_is_truncated_and_what_stands_before_the_cut_is_read()
    {
        byte[] golden = File.ReadAllBytes(Golden);
        for (int length = 8; length < golden.Length; length++)
        {
            RecordingScan scan = Scan(golden[..length], out _);
            Assert.Equal(Completeness.Truncated, scan.Completeness);
            Assert.Equal(0, scan.DamagedBytes);
        }
    }

    [Fact]
    public void A_block_taken_out_of_the_middle_is_missed()
    {
        byte[] golden = File.ReadAllBytes(Golden);
        List<long> offsets = [];
        using (MemoryStream stream = new(golden))
        {
            BlockReader blocks = new(stream, "golden");
            while (blocks.Next() is { } block)
            {
                offsets.Add(block.Offset);
            }
        }

        RecordingScan scan = Scan([.. golden[..(int)offsets[2]], .. golden[(int)offsets[3]..]], out List<int> counts);
        Assert.Equal((Completeness.Damaged, 1), (scan.Completeness, scan.MissingBlocks));
        Assert.Empty(counts);
    }

    [Fact]
    public void A_newer_format_is_refused_by_its_number()
    {
        byte[] golden = File.ReadAllBytes(Golden);
        golden[8] = 2;
        uint crc = System.IO.Hashing.Crc32.HashToUInt32(golden.AsSpan(8, 44));
        System.Buffers.Binary.BinaryPrimitives.WriteUInt32LittleEndian(golden.AsSpan(52), crc);
        InputException refused = Assert.Throws<InputException>(() => Scan(golden, out _));
        Assert.Contains("version 2", refused.Message, StringComparison.Ordinal);
        Assert.Contains("version 1", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_length_that_no_block_may_have_sets_no_memory_aside()
    {
        byte[] golden = File.ReadAllBytes(Golden);
        System.Buffers.Binary.BinaryPrimitives.WriteInt32LittleEndian(golden.AsSpan(48), int.MaxValue);
        uint crc = System.IO.Hashing.Crc32.HashToUInt32(golden.AsSpan(8, 44));
        System.Buffers.Binary.BinaryPrimitives.WriteUInt32LittleEndian(golden.AsSpan(52), crc);
        using MemoryStream stream = new(golden);
        BlockReader blocks = new(stream, "golden");
        long before = GC.GetAllocatedBytesForCurrentThread();
        while (blocks.Next() is not null)
        {
        }

        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 1_000_000);
    }

    private RecordingScan Scan(byte[] content, out List<int> counts)
    {
        File.WriteAllBytes(_folder["case.cbrec"], content);
        var scan = RecordingScan.Of(_folder["case.cbrec"]);
        List<int> read = [];
        SamplePass.Read(scan, batch =>
        {
            foreach (RecordedSample sample in batch)
            {
                read.Add(sample.Counts);
            }
        });
        counts = read;
        return scan;
    }
}
