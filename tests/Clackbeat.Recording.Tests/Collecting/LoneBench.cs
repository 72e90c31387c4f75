using Clackbeat.Logger;
using Clackbeat.Protocol;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.VirtualLogger.Wires;

namespace Clackbeat.Recording.Tests.Collecting;

/// <summary>A lone logger left by a ram with nobody on its line, and its card.</summary>
internal static class LoneBench
{
    /// <summary>Counts tell the true time: one count is so many seconds since the logger was switched on.</summary>
    public const double SecondsPerCount = 200;

    public static readonly DateTimeOffset SwitchedOn = new(2026, 5, 1, 9, 0, 0, TimeSpan.Zero);

    /// <summary>Lets a logger work until its card holds so many bursts.</summary>
    public static void FillCard(string card, int bursts, double lengthS = 2, double intervalS = 3600, VirtualFaults? faults = null)
    {
        using CancellationTokenSource powerOff = new();
        VirtualLoggerOptions options = new()
        {
            Pace = Pace.AsFastAsRead,
            Faults = faults ?? VirtualFaults.None,
            CardFolder = card,
            Settings = new LoggerSettings
            {
                WorksAlone = true,
                BurstLengthMilliseconds = (int)(lengthS * 1000),
                BurstIntervalMilliseconds = (int)(intervalS * 1000),
            },
        };
        TrueTime source = new(bursts, powerOff, intervalS);
        VirtualLogger.VirtualLogger.Run(source, new Nobody(), options, powerOff.Token).Wait();
        // The burst that was under way when the power went.
        foreach (FileInfo last in Files(card).Skip(bursts))
        {
            last.Delete();
        }
    }

    public static IEnumerable<FileInfo> Files(string card) => new DirectoryInfo(card)
        .EnumerateFiles("*.CBF", SearchOption.AllDirectories)
        .Where(f => char.IsAsciiDigit(f.Name[0]))
        .OrderBy(f => f.Name, StringComparer.Ordinal);

    private sealed class TrueTime(int bursts, CancellationTokenSource powerOff, double intervalS) : IConverterSource
    {
        public bool TryRead(int channel, double timeS, out int counts)
        {
            counts = channel == Channels.Pressure ? (int)(timeS / SecondsPerCount) : 3151;
            if (timeS > ((bursts + 1) * intervalS * 1.05) + 3600)
            {
                powerOff.Cancel();
            }

            return true;
        }
    }

    private sealed class Nobody : IWire
    {
        public void Write(ReadOnlySpan<byte> bytes)
        {
        }

        public int Read(Span<byte> buffer) => 0;

        public void WaitForInput(int milliseconds)
        {
        }

        public void Dispose()
        {
        }
    }
}
