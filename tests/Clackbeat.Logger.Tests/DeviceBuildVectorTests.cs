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
        writer.PutBytes(vector.Body, 1, vector.Body.Length - 1);
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

    [Fact]
    public void TheDeviceBuildMakesTheGoldenSamplesFrameFromItsEntries()
    {
        dynamic writer = Protocol.Make("Clackbeat.Protocol.Samples.SampleFrameWriter");
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
}
