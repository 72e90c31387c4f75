using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;
using Clackbeat.Protocol.Samples;

namespace Clackbeat.Protocol.Tests;

/// <summary>The code gives and takes the bytes that an encoder outside the project made from SPEC.md.</summary>
public class GoldenVectorTests
{
    public static TheoryData<string> Names => [.. Vectors.All.Select(v => v.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void AGoldenFrameIsDecodedToItsBodyAndItsBodyGivesTheFrame(string name)
    {
        Vector vector = Vectors.Named(name);
        Assert.Equal(vector.Body, Assert.Single(Decoding.Bodies(vector.Frame)));
        Assert.Equal(vector.Frame, Decoding.Frame(vector.Body));
        Assert.InRange(vector.Frame.Length, 1, FrameLimits.MaxFrame);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void AMessageReadFromAGoldenBodyWritesTheSameFrame(string name)
    {
        Vector vector = Vectors.Named(name);
        if (Blank(vector.Body[0]) is not { } message || name == "start-bare")
        {
            return;
        }

        Assert.True(message.TryRead(vector.Body, vector.Body.Length));
        Assert.Equal(vector.Frame, Written(message));
    }

    [Fact]
    public void EveryKindOfTheSpecificationHasAVector()
    {
        IEnumerable<int> inSpec = SpecTests.LayoutLines().Concat(SpecTests.LayoutLines("```grown"))
            .Where(l => !l.StartsWith("entry", StringComparison.Ordinal))
            .Select(l => Convert.ToInt32(l[..2], 16));
        Assert.Equal(inSpec.Order(), Vectors.All.Select(v => (int)v.Body[0]).Distinct().Order());
    }

    [Fact]
    public void NamedFieldsGiveTheGoldenHelloAndHealth()
    {
        Hello hello = new()
        {
            Protocol = 1,
            Fingerprint = 0xADC96700,
            ChannelMask = 3,
            ConverterMax = 4095,
            PeriodMicroseconds = 1000,
            SupplyEvery = 32,
            DeliveryEvery = 0,
            Boot = 5,
            Burst = 0,
            Mode = Modes.Streaming,
        };
        hello.Firmware[1] = 1;
        ((byte[])[0x11, 0, 0x22, 0x33, 0, 0x44, 0x55, 0x66]).CopyTo(hello.Device, 0);
        Assert.Equal(Vectors.Named("hello").Frame, Written(hello));

        Health health = new()
        {
            TimeMicroseconds = 0x0123456789,
            Overruns = 7,
            LostSamples = 300,
            FreeMemoryBytes = 90_000,
            SupplyCounts = 3150,
            BatteryCounts = 0xFFFF,
            Storage = StorageStates.Ready,
            FreeKib = ProtocolVersion.Unknown32,
            NewestBurst = 12,
            DiscardedPieces = 3,
            Clock = ClockSources.Host,
        };
        Assert.Equal(Vectors.Named("health").Frame, Written(health));
    }

    [Fact]
    public void TheGoldenSamplesFrameComesFromItsEntriesAndGivesThemBack()
    {
        SampleFrameWriter writer = new(isWide: false);
        writer.Open(258);
        writer.AddSample(0, 0);
        writer.AddSample(4095, 255);
        writer.AddReading(Channels.Supply, 3150);
        writer.AddSample(2048, -256);
        writer.AddSkip(20, LossReasons.Overrun);
        writer.AddLate(1000, 700);
        writer.AddReading(Channels.Delivery, 0);
        writer.BeginClose(5_000_000_123, 1000);
        while (!writer.CloseStep())
        {
        }

        Vector golden = Vectors.Named("samples");
        Assert.Equal(golden.Frame, writer.Buffer[..writer.Length]);

        SampleFrameReader reader = new();
        Assert.True(reader.TryOpen(golden.Body, golden.Body.Length));
        List<(EntryKind, long, int, int)> entries = [];
        while (reader.Next())
        {
            bool isSkip = reader.Kind == EntryKind.Skip;
            entries.Add((reader.Kind, isSkip ? 0 : reader.TimeMicroseconds - 5_000_000_123,
                isSkip ? reader.Points : reader.Counts, isSkip ? reader.Reason : reader.Channel));
        }

        Assert.Equal(
            [
                (EntryKind.Sample, 0, 0, 0), (EntryKind.Sample, 1255, 4095, 0), (EntryKind.Reading, 1255, 3150, 1),
                (EntryKind.Sample, 1744, 2048, 0), (EntryKind.Skip, 0, 20, LossReasons.Overrun),
                (EntryKind.Sample, 23_700, 1000, 0), (EntryKind.Reading, 23_700, 0, 2),
            ],
            entries);
        Assert.Equal(5_000_024_123, reader.NextPointMicroseconds);
    }

    // The entries as the comments of the vector name them; what came before each of them follows from SPEC §6 and §11.
    [Fact]
    public void TheGoldenFrameOfWideSamplesComesFromItsEntriesAndGivesThemBack()
    {
        SampleFrameWriter writer = new(isWide: true);
        writer.Open(259);
        writer.AddWideSample(0, 0);
        writer.AddWideSample(65535, 2047);
        writer.AddReading(Channels.Supply, 50412);
        writer.AddWideSample(32768, -2048);
        writer.AddWideSample(4660, 16);
        writer.AddSkip(20, LossReasons.Overrun);
        writer.AddLate(40_000, 700_000);
        writer.AddReading(Channels.Delivery, 65535);
        writer.BeginClose(5_000_000_123, 1000);
        while (!writer.CloseStep())
        {
        }

        Vector golden = Vectors.Named("wide-samples");
        Assert.Equal(golden.Frame, writer.Buffer[..writer.Length]);

        SampleFrameReader reader = new();
        Assert.True(reader.TryOpen(golden.Body, golden.Body.Length));
        List<(EntryKind, long, int, int)> entries = [];
        while (reader.Next())
        {
            bool isSkip = reader.Kind == EntryKind.Skip;
            entries.Add((reader.Kind, isSkip ? 0 : reader.TimeMicroseconds - 5_000_000_123,
                isSkip ? reader.Points : reader.Counts, isSkip ? reader.Reason : reader.Channel));
        }

        Assert.Equal(
            [
                (EntryKind.Sample, 0, 0, 0), (EntryKind.Sample, 3047, 65535, 0), (EntryKind.Reading, 3047, 50412, 1),
                (EntryKind.Sample, -48, 32768, 0), (EntryKind.Sample, 3016, 4660, 0), (EntryKind.Skip, 0, 20, LossReasons.Overrun),
                (EntryKind.Sample, 724_000, 40_000, 0), (EntryKind.Reading, 724_000, 65535, 2),
            ],
            entries);
        Assert.Equal(5_000_025_123, reader.NextPointMicroseconds);
    }

    internal static Message? Blank(byte kind) => kind switch
    {
        Kinds.Start => new StartCommand(),
        Kinds.Identity => new Identity(),
        Kinds.VersionAnswer => new VersionAnswer(),
        Kinds.Answer => new Answer(),
        Kinds.Health => new Health(),
        Kinds.Hello => new Hello(),
        Kinds.Loss => new Loss(),
        Kinds.TimeMark => new TimeMark(),
        Kinds.BurstStart => new BurstStart(),
        Kinds.BurstEnd => new BurstEnd(),
        Kinds.Fault => new Fault(),
        Kinds.BurstList => new BurstList(),
        Kinds.BurstData => new BurstData(),
        Kinds.SetCalendar => new SetCalendar(),
        Kinds.SetSchedule => new SetSchedule(),
        Kinds.ReadBurst => new ReadBurst(),
        Kinds.Bench => new Bench(),
        _ => null,
    };

    internal static byte[] Written(Message message)
    {
        FrameWriter writer = new();
        message.Write(writer);
        return writer.Buffer[..writer.Length];
    }
}
