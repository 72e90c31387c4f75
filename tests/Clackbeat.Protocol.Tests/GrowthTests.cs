using Clackbeat.Protocol.Messages;
using Clackbeat.Protocol.Samples;
using Clackbeat.Recording.Link;
using Clackbeat.Site;

namespace Clackbeat.Protocol.Tests;

/// <summary>SPEC §3: what an older program does with a newer logger, and the other way round.</summary>
public class GrowthTests
{
    public static TheoryData<string> Fixed => ["version-answer", "answer", "health", "hello", "loss", "time-mark",
        "burst-start", "burst-end", "bench", "burst-list", "set-calendar", "read-burst"];

    [Theory]
    [MemberData(nameof(Fixed))]
    public void AnUnknownTailIsIgnored(string name)
    {
        Vector vector = Vectors.Named(name);
        Message message = GoldenVectorTests.Blank(vector.Body[0])!;
        Assert.True(message.TryRead([.. vector.Body, 1, 2, 3], vector.Body.Length + 3));
        Assert.Equal(vector.Frame, GoldenVectorTests.Written(message));
    }

    [Theory]
    [MemberData(nameof(Fixed))]
    public void ABodyShorterThanItsFieldsIsRefusedWhole(string name)
    {
        Vector vector = Vectors.Named(name);
        for (int length = 0; length < vector.Body.Length; length++)
        {
            Assert.False(GoldenVectorTests.Blank(vector.Body[0])!.TryRead(vector.Body, length));
        }
    }

    [Fact]
    public void FieldsLeftOutOfStartMeanAsSet()
    {
        StartCommand start = new();
        Assert.True(start.TryRead(Vectors.Named("start-bare").Body, 1));
        Assert.Equal(0u, start.PeriodMicroseconds);
        Assert.Equal(ProtocolVersion.NotGiven16, start.SupplyEvery);
        Assert.Equal(ProtocolVersion.NotGiven16, start.DeliveryEvery);
    }

    [Fact]
    public void AnUnknownEntryOfASamplesFrameIsSteppedOver()
    {
        byte[] body = Vectors.Named("samples").Body;
        byte[] withUnknown = [.. body[..6], 0x5F, 0x81, 0x82, 0x83, 0x84, 0x85, .. body[6..]];
        Assert.Equal(Times(body), Times(withUnknown));
    }

    [Fact]
    public void ASamplesFrameCutAnywhereIsRefusedAsItLacksItsGrid()
    {
        byte[] body = Vectors.Named("samples").Body;
        for (int length = 0; length < body.Length; length++)
        {
            Assert.False(new SampleFrameReader().TryOpen(body, length));
        }
    }

    [Fact]
    public void ANewerVersionIsRefusedNamingBothVersionsAndTheRemedy()
    {
        InputException refusal = Assert.Throws<InputException>(() => VersionCheck.Refuse(7, 0x12345678));
        Assert.Contains("version 7", refusal.Message, StringComparison.Ordinal);
        Assert.Contains($"version {ProtocolVersion.Number}", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("Install a newer clackbeat", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void TheSameVersionWithAnotherLayoutIsRefusedNamingBothAndTheRemedy()
    {
        InputException refusal = Assert.Throws<InputException>(
            () => VersionCheck.Refuse(ProtocolVersion.Number, 0x12345678));
        Assert.Contains("12345678", refusal.Message, StringComparison.Ordinal);
        Assert.Contains($"{ProtocolVersion.Fingerprint:X8}", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("Put the firmware", refusal.Message, StringComparison.Ordinal);
    }

    private static List<long> Times(byte[] body)
    {
        SampleFrameReader reader = new();
        Assert.True(reader.TryOpen(body, body.Length));
        List<long> times = [];
        while (reader.Next())
        {
            times.Add(reader.TimeMicroseconds);
        }

        return times;
    }
}
