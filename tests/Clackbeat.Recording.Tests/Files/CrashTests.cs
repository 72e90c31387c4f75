using System.Buffers.Binary;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;

namespace Clackbeat.Recording.Tests.Files;

/// <summary>What was acknowledged is there bit by bit after any crash; the rest is absent, and then that is said.</summary>
public sealed class CrashTests : IDisposable
{
    private const int Crashes = 250;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Whatever_a_disk_does_with_unflushed_writes_nothing_acknowledged_is_lost_or_changed()
    {
        Random random = new(20260501);
        long acknowledged = 0;
        int holes = 0;
        for (int i = 0; i < Crashes; i++)
        {
            CrashingStore store = new(random.Next(2, 120), random);
            long durable = Record(store, random, out byte[] sent);
            acknowledged += durable;
            File.WriteAllBytes(_folder["crashed.cbrec"], store.Remains());
            holes += Check(sent, durable) ? 1 : 0;
        }

        // The simulator itself must do both: acknowledge something, and spoil something.
        Assert.True(acknowledged > Crashes * 1000, $"{acknowledged}");
        Assert.True(holes > Crashes / 20, $"{holes}");
    }

    [Fact]
    public void A_session_appended_behind_a_torn_tail_is_read_and_the_tail_is_no_damage()
    {
        Random random = new(7);
        for (int i = 0; i < 50; i++)
        {
            CrashingStore store = new(random.Next(10, 60), random);
            Record(store, random, out _);
            string path = _folder[$"appended{i}.cbrec"];
            byte[] remains = store.Remains();
            File.WriteAllBytes(path, remains);
            Completeness before = RecordingScan.Of(path).Completeness;
            using (RecordingWriter writer = new(DiskStore.Append(path), new ManualTime()))
            {
                writer.Begin(Header(), []);
                writer.AddBytes("second"u8, 0);
                writer.End(EndReason.Asked, 0);
            }

            Assert.Equal(remains, File.ReadAllBytes(path)[..remains.Length]);
            RecordingScan scan = RecordingScan.Of(path);
            Assert.Equal(before, scan.Completeness);
            Assert.NotNull(scan.Sessions[^1].End);
        }
    }

    // Sends chunks whose bytes follow from their place in the stream, until the power goes.
    private static long Record(CrashingStore store, Random random, out byte[] sent)
    {
        ManualTime time = new();
        List<byte> stream = [];
        RecordingWriter writer = new(store, time);
        try
        {
            writer.Begin(Header(), [new RecordingDocument(DocumentRole.Site, "ram.toml", "[site]")]);
            while (true)
            {
                byte[] chunk = new byte[random.Next(1, 4000)];
                random.NextBytes(chunk);
                // The arrival time stands for the place in the stream.
                writer.AddBytes(chunk, stream.Count);
                stream.AddRange(chunk);
                time.Pass(TimeSpan.FromMilliseconds(random.Next(400)));
                if (random.Next(2) == 0)
                {
                    writer.AddLoss(new LossRecord { Cause = LossCause.Noise });
                }

                writer.FlushIfDue();
            }
        }
        catch (PowerGoneException)
        {
            sent = [.. stream];
            return writer.DurableBytes;
        }
    }

    // True when something in the middle was spoilt.
    private bool Check(byte[] sent, long durable)
    {
        bool[] present = new bool[sent.Length];
        using (FileStream file = File.OpenRead(_folder["crashed.cbrec"]))
        {
            BlockReader blocks = new(file, "crashed");
            while (blocks.Next() is { } block)
            {
                if (block.Head.Kind == BlockKind.Frames)
                {
                    TakeChunks(block.Payload.Span, sent, present);
                }
            }
        }

        Assert.True(present.Take((int)durable).All(there => there));
        RecordingScan scan = RecordingScan.Of(_folder["crashed.cbrec"]);
        Assert.NotEqual(Completeness.Complete, scan.Completeness);
        int last = Array.LastIndexOf(present, true);
        bool hole = present.Take(last + 1).Any(there => !there);
        if (hole)
        {
            Assert.True(scan.MissingBlocks > 0 && scan.Completeness == Completeness.Damaged);
        }

        return hole;
    }

    private static void TakeChunks(ReadOnlySpan<byte> payload, byte[] sent, bool[] present)
    {
        while (payload.Length > 0)
        {
            int at = (int)BinaryPrimitives.ReadInt64LittleEndian(payload);
            int length = BinaryPrimitives.ReadUInt16LittleEndian(payload[8..]);
            Assert.True(payload.Slice(10, length).SequenceEqual(sent.AsSpan(at, length)));
            present.AsSpan(at, length).Fill(true);
            payload = payload[(10 + length)..];
        }
    }

    private static SessionHeader Header() => new()
    {
        Source = SessionSource.Line,
        Protocol = 1,
        Fingerprint = Clackbeat.Protocol.ProtocolVersion.Fingerprint,
        Device = "0102030405060708",
        Firmware = new Version(0, 1, 0),
        ConverterMax = 4095,
        Program = "test",
        Place = "test",
    };
}
