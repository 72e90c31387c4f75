using System.IO.Compression;
using System.Text;
using System.Text.Json.Nodes;
using Clackbeat.Season.Packets;
using Clackbeat.Season.Store;
using Clackbeat.Signal.Beats;
using Clackbeat.Site;

namespace Clackbeat.Season.Tests;

/// <summary>Packets from anybody: what was sent arrives, and what can't be is refused with its place.</summary>
public class PacketTests
{
    private static readonly DateTimeOffset Now = new(2026, 5, 1, 12, 0, 0, TimeSpan.Zero);

    [Fact]
    public void What_is_sent_arrives_and_a_second_sending_changes_nothing()
    {
        SeasonBurst burst = Burst() with
        {
            StartUncertaintyS = 2,
            Beats = [.. Burst().Beats.Select((b, i) => b with { Flow = i % 2 == 0 ? new BeatFlow(1.234, 0.0001234, 0.0002) : null })],
        };
        var mark = new MaintenanceMark(burst.Ram, Now.AddMinutes(-1).AddTicks(10), "caoutchouc neuf, 12 mm");
        byte[] sent = PacketWriter.Write(new BurstPacket([burst], [mark]));
        BurstPacket came = PacketReader.Read(sent, Now);
        Assert.Equal(mark, Assert.Single(came.Marks));
        SeasonBurst got = Assert.Single(came.Bursts);
        Assert.Equal(burst with { SourceHash = got.SourceHash, Figures = got.Figures, Conditions = got.Conditions, Beats = got.Beats }, got);
        Assert.Equal(burst.SourceHash, got.SourceHash);
        Assert.Equal(burst.Figures, got.Figures);
        Assert.Equal(burst.Conditions, got.Conditions);
        Assert.Equal(sent, PacketWriter.Write(came));
    }

    [Theory]
    [InlineData("hash", "\"00\"", "hash")]
    [InlineData("hash", "\"zz\"", "hash")]
    [InlineData("ram", "\"\"", "ram")]
    [InlineData("ram", "\"mill\\n(removed)\"", "ram")]
    [InlineData("ram", "null", "ram")]
    [InlineData("start", "\"2026-05-03T12:00:00Z\"", "start")]
    [InlineData("start", "\"1999-12-31T00:00:00Z\"", "start")]
    [InlineData("start", "\"yesterday\"", "start")]
    [InlineData("duration_s", "-1", "duration_s")]
    [InlineData("duration_s", "1e99", "duration_s")]
    [InlineData("state", "\"asleep\"", "state")]
    [InlineData("figures", "{\"rate\":{\"value\":null}}", "figures.rate")]
    [InlineData("figures", "{\"rate\":{\"value\":1,\"u\":-1}}", "figures.rate.u")]
    [InlineData("figures", "{\"rate\":{\"value\":\"NaN\"}}", "figures")]
    [InlineData("conditions", "{\"healthy\":1.5}", "conditions.healthy")]
    [InlineData("conditions", "{\"'; DROP TABLE burst\":0.5}", "conditions")]
    [InlineData("beats", "\"AAAA\"", "beats")]
    [InlineData("beats", "\"no base 64\"", "beats")]
    [InlineData("source", "[[[[[[[[[[[[]]]]]]]]]]]]", "source")]
    public void A_value_that_cannot_be_is_refused_with_its_place(string key, string value, string place)
    {
        JsonNode packet = JsonNode.Parse(Plain(PacketWriter.Write(new BurstPacket([Burst()], []))))!;
        packet["bursts"]![0]![key] = JsonNode.Parse(value);
        InputException refused = Assert.Throws<InputException>(() => PacketReader.Read(Encoding.UTF8.GetBytes(packet.ToJsonString()), Now));
        Assert.Contains(place, refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_figure_of_a_later_program_is_passed_over()
    {
        JsonNode packet = JsonNode.Parse(Plain(PacketWriter.Write(new BurstPacket([Burst()], []))))!;
        packet["bursts"]![0]!["figures"]!["moon-phase"] = JsonNode.Parse("{\"value\":0.5}");
        packet["bursts"]![0]!["colour"] = "red";
        Assert.Equal(Burst().Figures, Assert.Single(PacketReader.Read(Encoding.UTF8.GetBytes(packet.ToJsonString()), Now).Bursts).Figures);
    }

    /// <summary>A few kilobytes that would become gigabytes, in the packet and in a burst's beats.</summary>
    [Fact]
    public void Nothing_that_grows_out_of_bounds_is_unpacked()
    {
        using var bomb = new MemoryStream();
        using (var gzip = new GZipStream(bomb, CompressionLevel.Optimal, leaveOpen: true))
        {
            gzip.Write(new byte[PacketLimits.PlainBytes + 1]);
        }

        Assert.True(bomb.Length < PacketLimits.Bytes);
        Assert.Contains("too large", Assert.Throws<InputException>(() => PacketReader.Read(bomb.ToArray(), Now)).Message, StringComparison.Ordinal);

        SeasonBurst many = Burst() with { Beats = [.. Enumerable.Repeat(Burst().Beats[0], PacketLimits.Beats / 2)] };
        byte[] beats = PacketWriter.Write(new BurstPacket([many, many, many], []));
        long before = GC.GetAllocatedBytesForCurrentThread();
        Assert.Contains("bursts[2].beats", Assert.Throws<InputException>(() => PacketReader.Read(beats, Now)).Message, StringComparison.Ordinal);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 200_000_000);
    }

    /// <summary>Whatever bytes come, the answer is a refusal and no crash.</summary>
    [Fact]
    public void Damaged_packets_are_refused_and_nothing_else_happens()
    {
        byte[] good = Encoding.UTF8.GetBytes(Plain(PacketWriter.Write(new BurstPacket([Burst()], []))));
        var chance = new Random(23);
        int refused = 0;
        for (int i = 0; i < 2000; i++)
        {
            byte[] bad = [.. good];
            for (int hits = chance.Next(1, 6); hits > 0; hits--)
            {
                bad[chance.Next(bad.Length)] = (byte)chance.Next(256);
            }

            try
            {
                PacketReader.Read(bad.AsMemory(0, chance.Next(4) == 0 ? chance.Next(bad.Length) : bad.Length), Now);
            }
            catch (InputException)
            {
                refused++;
            }
        }

        Assert.InRange(refused, 1000, 2000);
    }

    private static SeasonBurst Burst() => KilledWriter.Burst(1_000_000) with { StartUtc = Now.AddHours(-1).AddTicks(70) };

    private static string Plain(byte[] packet)
    {
        using var gzip = new GZipStream(new MemoryStream(packet), CompressionMode.Decompress);
        using var reader = new StreamReader(gzip);
        return reader.ReadToEnd();
    }
}
