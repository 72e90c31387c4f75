using System.Reflection;
using System.Runtime.Loader;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Tests;
using Clackbeat.Recording.Link;
using Mono.Cecil;

namespace Clackbeat.Logger.Tests.Device;

/// <summary>
/// The very program that goes on a board, run here against small libraries by the device libraries' names: entry, pins,
/// port, converter, first frames, faults.
/// </summary>
public sealed class ProgramTests
{
    private static readonly string[] Replaced =
        ["System.Device.Adc", "System.Device.Gpio", "System.IO.Ports", "nanoFramework.Hardware.Esp32", "nanoFramework.Runtime.Native"];

    [Fact]
    public void ABoardSaysHelloAndStreamsWhenAskedTo()
    {
        FakeDevice device = Start(new FakeDevice());
        Assert.Equal([Kinds.Hello, Kinds.TimeMark, Kinds.Health], AwaitFrames(device, 3).Kinds.Take(3));
        device.Receive(Vectors.Named("start-bare").Frame);
        Stream stream = AwaitFrames(device, 6, samples: 500);
        device.TurnOff();

        Assert.Equal(("COM2 None 8 One", 115_200), (device.PortName, device.Baud));
        Assert.Equal([6, 7], device.Channels);

        // By the runtime's own numbering of functions: serial 3, converter 5, then device and function.
        Assert.Equal([(25, 0x3_0200), (26, 0x3_0201), (34, 0x5_0106), (35, 0x5_0107)], device.Pins);
        Assert.Equal("ram-0001", System.Text.Encoding.ASCII.GetString(stream.Reader.Hello!.Device));
        Assert.Equal(98_765u, stream.Reader.Health!.FreeMemoryBytes);

        // The sensor is switched on before the first sample, by the pin that the pages name.
        Assert.Equal([(27, true)], device.Written);
        Assert.All(stream.Samples, s => Assert.Equal(6000 % 4096, s.Counts));
        Assert.Equal(7000 % 4096, stream.Samples[^1].SupplyCounts);
        Assert.True(stream.Reader.Losses.DiscardedPieces == 0 && stream.Reader.Losses.LostFrames == 0);
    }

    [Fact]
    public void ABoardThatFailsAtItsStartSaysWhyOnTheLine()
    {
        FakeDevice device = Start(new FakeDevice { ConverterFault = "no converter" });
        Stream stream = AwaitFrames(device, 1);
        device.TurnOff();
        Assert.Equal(Kinds.Fault, stream.Kinds[0]);
        Assert.Equal("no converter", stream.Reader.LastFault);
    }

    private static FakeDevice Start(FakeDevice device)
    {
        AssemblyLoadContext context = new("board");
        foreach (string name in DeviceBuild.Names)
        {
            Load(context, name, _ => { });
        }

        MethodInfo main = Load(context, DeviceBuild.Board, PointToFakes).EntryPoint!;
        device.Run(() => main.Invoke(null, null));
        return device;
    }

    private static Assembly Load(AssemblyLoadContext context, string name, Action<ModuleDefinition> change)
    {
        using ModuleDefinition module = DeviceBuild.Open(name);
        change(module);
        using MemoryStream stream = new();
        module.Write(stream);
        stream.Position = 0;
        return context.LoadFromStream(stream);
    }

    private static void PointToFakes(ModuleDefinition module)
    {
        foreach (AssemblyNameReference reference in module.AssemblyReferences.Where(r => Replaced.Contains(r.Name)))
        {
            reference.Name = typeof(FakeDevice).Assembly.GetName().Name!;
            reference.Version = new Version(0, 0, 0, 0);
        }
    }

    private static Stream AwaitFrames(FakeDevice device, int frames, int samples = 0)
    {
        DateTime end = DateTime.UtcNow.AddSeconds(30);
        Stream stream = Read(device);
        while ((stream.Kinds.Count < frames || stream.Samples.Count < samples) && DateTime.UtcNow < end)
        {
            Thread.Sleep(20);
            stream = Read(device);
        }

        Assert.True(stream.Kinds.Count >= frames && stream.Samples.Count >= samples, "the board fell silent");
        return stream;
    }

    private static Stream Read(FakeDevice device)
    {
        Stream stream = new(new FrameReader(), [], []);
        stream.Reader.OtherFrame = (kind, _) => stream.Kinds.Add(kind);
        stream.Reader.Read(device.Sent(), stream.Samples);
        return stream;
    }

    private sealed record Stream(FrameReader Reader, List<byte> Kinds, List<LoggerSample> Samples);
}
