using Clackbeat.Logger.Alone;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Link;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.VirtualLogger.Wires;

namespace Clackbeat.Logger.Tests.Charged;

/// <summary>What is run inside <see cref="MeteredBuild"/>; results are plain numbers, which pass from one context to the other.</summary>
public static class Scenarios
{
    /// <summary>
    /// Streams to a host at 1 kHz for a time. Result: samples, points lost and told, points of the grid from the first to
    /// the last sample, greatest lag of a conversion behind its stated time [µs], overruns told in health.
    /// </summary>
    public static long[] Stream(double instructionUs, double conversionUs, double lengthS)
    {
        StartingWire wire = new();
        VirtualLoggerOptions options = new()
        {
            Pace = Pace.AsFastAsRead,
            Faults = new VirtualFaults { CutAtS = lengthS },
            Charges = Charges(instructionUs, conversionUs, sectorUs: 0),
        };
        VirtualLogger.VirtualLogger.Run(new ClockedConverter(), wire, options, CancellationToken.None).Wait();
        FrameReader reader = new();
        List<LoggerSample> samples = [];
        reader.Read(wire.Sent, samples);
        double lag = samples.Max(s => Math.Abs(ClockedConverter.LagUs(s.Counts, s.DeviceTimeMicroseconds)));
        return
        [
            samples.Count, reader.Losses.SkippedPoints + reader.Losses.LostPoints, Points(samples), (long)lag,
            reader.Health!.Overruns,
        ];
    }

    /// <summary>
    /// Records one burst of 10 s alone on a card. Result: samples in the file, points lost and told, points of the grid,
    /// greatest lag [µs], 1 when the file has its end.
    /// </summary>
    public static long[] Burst(string folder, double instructionUs, double conversionUs, double sectorUs)
    {
        LoggerSettings settings = new()
        {
            WorksAlone = true,
            BurstLengthMilliseconds = 10_000,
            BurstIntervalMilliseconds = 60_000,
        };
        using FolderCard card = new(folder);
        VirtualLogger.VirtualLogger.RunAlone(
            new ClockedConverter(),
            new VirtualLoggerOptions { Settings = settings, Charges = Charges(instructionUs, conversionUs, sectorUs) },
            30,
            card);
        FrameReader reader = new();
        List<LoggerSample> samples = [];
        bool ended = false;
        reader.OtherFrame = (kind, _) => ended |= kind == Kinds.BurstEnd;
        reader.Read(File.ReadAllBytes(Path.Combine(folder, BurstNames.Folder(1), BurstNames.File(1))), samples);
        double lag = samples.Max(s => Math.Abs(ClockedConverter.LagUs(s.Counts, s.DeviceTimeMicroseconds)));
        return
        [
            samples.Count, reader.Losses.SkippedPoints + reader.Losses.LostPoints, Points(samples), (long)lag, ended ? 1 : 0,
        ];
    }

    // A sample comes up to a period behind its point, and the first one just behind it.
    private static long Points(List<LoggerSample> samples) =>
        ((samples[^1].DeviceTimeMicroseconds - samples[0].DeviceTimeMicroseconds + 50) / 1000) + 1;

    private static DeviceCharges Charges(double instructionUs, double conversionUs, double sectorUs) => new()
    {
        InstructionUs = instructionUs,
        ConversionUs = conversionUs,
        SectorUs = sectorUs,
        Instructions = () => WorkMeter.Instructions,

        // The call itself is charged by its instructions; what the native side adds is small.
        ClockReadUs = 2,
        SendUs = 20,
        ReceiveUs = 5,
    };

    private sealed class StartingWire : IWire
    {
        private readonly MemoryStream _sent = new();
        private byte[]? _start = StartFrame();

        public byte[] Sent => _sent.ToArray();

        public void Write(ReadOnlySpan<byte> bytes) => _sent.Write(bytes);

        public int Read(Span<byte> buffer)
        {
            int count = _start?.Length ?? 0;
            _start?.CopyTo(buffer);
            _start = null;
            return count;
        }

        public void WaitForInput(int milliseconds)
        {
        }

        public void Dispose()
        {
        }

        private static byte[] StartFrame()
        {
            FrameWriter writer = new();
            new StartCommand { SupplyEvery = ProtocolVersion.NotGiven16, DeliveryEvery = ProtocolVersion.NotGiven16 }.Write(writer);
            return writer.Buffer[..writer.Length];
        }
    }
}
