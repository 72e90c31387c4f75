using System.Reflection;
using Clackbeat.Protocol.Tests;

namespace Clackbeat.Logger.Tests;

/// <summary>The protocol as built for the microcontroller gives and takes the golden bytes.</summary>
public class DeviceBuildVectorTests
{
    private static readonly Assembly Protocol = DeviceBuild.Load()["Clackbeat.Protocol"];

    public static TheoryData<string> Names => [.. Vectors.All.Select(v => v.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void TheDeviceBuildGivesAndTakesEachGoldenFrame(string name)
    {
        Vector vector = Vectors.Named(name);
        dynamic writer = Protocol.Make("Clackbeat.Protocol.Framing.FrameWriter");
        writer.Begin(vector.Body[0]);
        writer.AppendBytes(vector.Body, 1, vector.Body.Length - 1);
        writer.End();
        Assert.Equal(vector.Frame, ((byte[])writer.Buffer)[..(int)writer.Length]);

        dynamic decoder = Protocol.Make("Clackbeat.Protocol.Framing.FrameDecoder");
        bool whole = false;
        foreach (byte value in vector.Frame)
        {
            whole |= decoder.Push(value);
        }

        Assert.True(whole);
        Assert.Equal(vector.Body, ((byte[])decoder.Body)[..(int)decoder.BodyLength]);
    }

    // Every message class, by the vector of its kind.
    public static TheoryData<string, string> Messages => new()
    {
        { "start", "StartCommand" },
        { "identity", "Identity" },
        { "version-answer", "VersionAnswer" },
        { "answer", "Answer" },
        { "health", "Health" },
        { "hello", "Hello" },
        { "loss", "Loss" },
        { "time-mark", "TimeMark" },
        { "burst-start", "BurstStart" },
        { "burst-end", "BurstEnd" },
        { "fault", "Fault" },
        { "burst-list", "BurstList" },
        { "burst-data", "BurstData" },
        { "set-calendar", "SetCalendar" },
        { "set-schedule", "SetSchedule" },
        { "read-burst", "ReadBurst" },
        { "bench", "Bench" },
    };

    [Theory]
    [MemberData(nameof(Messages))]
    public void AMessageOfTheDeviceBuildReadsItsGoldenBodyAndWritesItAgain(string name, string type)
    {
        Vector vector = Vectors.Named(name);
        dynamic message = Protocol.Make("Clackbeat.Protocol.Messages." + type);
        Assert.True((bool)message.TryRead(vector.Body, vector.Body.Length));
        dynamic writer = Protocol.Make("Clackbeat.Protocol.Framing.FrameWriter");
        message.Write(writer);
        Assert.Equal(vector.Frame, ((byte[])writer.Buffer)[..(int)writer.Length]);
    }

    [Fact]
    public void EveryMessageClassOfTheDeviceBuildIsAmongThem()
    {
        Type parent = Protocol.GetType("Clackbeat.Protocol.Messages.Message", throwOnError: true)!;
        Assert.Equal(
            Protocol.GetTypes().Where(t => t.IsSubclassOf(parent)).Select(t => t.Name).Order(),
            Messages.Select(row => (string)row[1]).Order());
    }

    [Fact]
    public void TheDeviceBuildMakesTheGoldenSamplesFrameFromItsEntries()
    {
        dynamic writer = Protocol.Make("Clackbeat.Protocol.Samples.SampleFrameWriter", false);
        writer.Open(258);
        writer.AddSample(0, 0);
        writer.AddSample(4095, 255);
        writer.AddReading(1, 3150);
        writer.AddSample(2048, -256);
        writer.AddSkip(20, 1);
        writer.AddLate(1000, 700);
        writer.AddReading(2, 0);
        writer.BeginClose(5_000_000_123L, 1000);
        while (!(bool)writer.CloseStep())
        {
        }

        Assert.Equal(Vectors.Named("samples").Frame, ((byte[])writer.Buffer)[..(int)writer.Length]);
    }

    [Fact]
    public void TheDeviceBuildReadsTheEntriesOfTheGoldenSamplesFrame()
    {
        Vector golden = Vectors.Named("samples");
        dynamic reader = Protocol.Make("Clackbeat.Protocol.Samples.SampleFrameReader");
        Assert.True((bool)reader.TryOpen(golden.Body, golden.Body.Length));
        List<(long Us, int Counts)> readings = [];
        while ((bool)reader.Next())
        {
            readings.Add(((long)reader.TimeMicroseconds - 5_000_000_123, (int)reader.Counts));
        }

        Assert.Equal([(0, 0), (1255, 4095), (1255, 3150), (1744, 2048), (1744, 2048), (23_700, 1000), (23_700, 0)], readings);
        Assert.Equal(5_000_024_123, (long)reader.NextPointMicroseconds);
    }

    [Fact]
    public void TheDeviceBuildMakesAndReadsTheGoldenFrameOfWideSamples()
    {
        dynamic writer = Protocol.Make("Clackbeat.Protocol.Samples.SampleFrameWriter", true);
        writer.Open(259);
        writer.AddWideSample(0, 0);
        writer.AddWideSample(65535, 2047);
        writer.AddReading(1, 50412);
        writer.AddWideSample(32768, -2048);
        writer.AddWideSample(4660, 16);
        writer.AddSkip(20, 1);
        writer.AddLate(40_000, 700_000);
        writer.AddReading(2, 65535);
        writer.BeginClose(5_000_000_123L, 1000);
        while (!(bool)writer.CloseStep())
        {
        }

        Vector golden = Vectors.Named("wide-samples");
        Assert.Equal(golden.Frame, ((byte[])writer.Buffer)[..(int)writer.Length]);

        dynamic reader = Protocol.Make("Clackbeat.Protocol.Samples.SampleFrameReader");
        Assert.True((bool)reader.TryOpen(golden.Body, golden.Body.Length));
        List<(long Us, int Counts)> readings = [];
        while ((bool)reader.Next())
        {
            readings.Add(((long)reader.TimeMicroseconds - 5_000_000_123, (int)reader.Counts));
        }

        // The skip keeps the reader's last counts.
        Assert.Equal(
            [(0, 0), (3047, 65535), (3047, 50412), (-48, 32768), (3016, 4660), (3016, 4660), (724_000, 40_000), (724_000, 65535)], readings);
    }
}
