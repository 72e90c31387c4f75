using System.Buffers.Binary;
using System.Diagnostics;
using System.IO.Hashing;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;
using Clackbeat.Site;

namespace Clackbeat.Recording.Tests.Files;

/// <summary>
/// Files whose check sums are right and whose content can't be, as only somebody who means harm writes them: they are read
/// or refused in words, and cost neither hours nor all memory. Blocks are laid out by recording-format §1 with a CRC of the
/// base library.
/// </summary>
public sealed class HostileFileTests : IDisposable
{
    private const int HeaderLength = 56;
    private const byte SessionKind = 1;
    private const byte FramesKind = 3;
    private const byte LossKind = 4;

    private static readonly byte[] Marker = [0xF5, 0x43, 0x4B, 0x42, 0x0D, 0x0A, 0x1A, 0x0A];

    // Far more than a reader needs on a busy machine, far less than reading each byte a thousand times takes.
    private static readonly TimeSpan LongestReading = TimeSpan.FromSeconds(20);

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData(long.MinValue, 0)]
    [InlineData(long.MaxValue, long.MinValue)]
    [InlineData(0, long.MaxValue)]
    public void Clocks_that_can_not_be_are_left_out_of_the_calendar(long utc, long elapsed)
    {
        RecordingScan scan = Scan([.. Block(SessionKind, 0, [], 0, 0), .. Block(LossKind, 1, Loss(5), utc, elapsed)]);
        Assert.Empty(Assert.Single(scan.Sessions).Calendar.Steps);
        Assert.NotEmpty(RecordingFacts.Of(scan));
    }

    [Fact]
    public void Losses_that_can_not_be_are_unknown_and_their_sum_is_still_told()
    {
        RecordingScan scan = Scan(
        [
            .. Block(SessionKind, 0, [], 0, 0),
            .. Block(LossKind, 1, Loss(long.MaxValue), 0, 0),
            .. Block(LossKind, 2, Loss(long.MaxValue), 0, 0),
            .. Block(LossKind, 3, Loss(7), 0, 0),
        ]);
        Assert.Equal(7, scan.MissingSamples);
        Assert.NotEmpty(RecordingFacts.Of(scan));
    }

    [Fact]
    public void Headers_that_each_claim_a_megabyte_of_the_same_bytes_are_read_a_few_times_at_most()
    {
        byte[] claim = Block(FramesKind, 0, [], 0, 0, claimed: 1 << 20);
        byte[] file = [.. Enumerable.Repeat(claim, 40_000).SelectMany(c => c)];
        AssertQuick(() => Assert.Equal(Completeness.Truncated, Scan(file).Completeness));
    }

    [Fact]
    public void A_file_of_nothing_but_markers_is_read_in_one_go() => AssertQuick(() =>
        Assert.Equal(Completeness.Truncated, Scan([.. Enumerable.Repeat(Marker, 400_000).SelectMany(m => m)]).Completeness));

    [Fact]
    public void More_sessions_than_any_recorder_makes_are_refused_in_words()
    {
        byte[] file = [.. Enumerable.Range(0, 20_001).SelectMany(i => Block(SessionKind, 0, [], 0, 0, session: i))];
        Assert.Contains("sessions", Assert.Throws<InputException>(() => Scan(file)).Message, StringComparison.Ordinal);
    }

    private RecordingScan Scan(byte[] file)
    {
        File.WriteAllBytes(_folder["hostile.cbrec"], file);
        return RecordingScan.Of(_folder["hostile.cbrec"]);
    }

    private static void AssertQuick(Action read)
    {
        var clock = Stopwatch.StartNew();
        read();
        Assert.True(clock.Elapsed < LongestReading, $"{clock.Elapsed}");
    }

    // Cause, reserved, four times, samples, bytes, an empty text (recording-format §6).
    private static byte[] Loss(long samples)
    {
        byte[] loss = new byte[2 + (6 * 8) + 2];
        loss[0] = 4;
        for (int at = 2; at < 34; at += 8)
        {
            BinaryPrimitives.WriteInt64LittleEndian(loss.AsSpan(at), LossRecord.Unknown);
        }

        BinaryPrimitives.WriteInt64LittleEndian(loss.AsSpan(34), samples);
        return loss;
    }

    private static byte[] Block(byte kind, uint sequence, byte[] payload, long utc, long elapsed, int? claimed = null, int session = 1)
    {
        byte[] block = new byte[HeaderLength + payload.Length + 4];
        Marker.CopyTo(block, 0);
        block[8] = 1;
        block[9] = kind;
        BinaryPrimitives.WriteInt32LittleEndian(block.AsSpan(12), session);
        BinaryPrimitives.WriteUInt32LittleEndian(block.AsSpan(28), sequence);
        BinaryPrimitives.WriteInt64LittleEndian(block.AsSpan(32), utc);
        BinaryPrimitives.WriteInt64LittleEndian(block.AsSpan(40), elapsed);
        BinaryPrimitives.WriteInt32LittleEndian(block.AsSpan(48), claimed ?? payload.Length);
        payload.CopyTo(block, HeaderLength);
        Seal(block, 52);
        Seal(block, HeaderLength + payload.Length);
        return block;
    }

    private static void Seal(byte[] block, int at) => BinaryPrimitives.WriteUInt32LittleEndian(
        block.AsSpan(at), Crc32.HashToUInt32(block.AsSpan(8, at - 8)));
}
