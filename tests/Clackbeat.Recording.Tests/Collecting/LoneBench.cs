using Clackbeat.Logger;
using Clackbeat.Protocol;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;

namespace Clackbeat.Recording.Tests.Collecting;

/// <summary>A lone logger left by a ram with nobody on its line, and its card.</summary>
internal static class LoneBench
{
    /// <summary>Counts tell the true time: one count is so many seconds since the logger was switched on.</summary>
    public const double SecondsPerCount = 200;

    public static readonly DateTimeOffset SwitchedOn = new(2026, 5, 1, 9, 0, 0, TimeSpan.Zero);

    /// <summary>Lets a logger work until its card holds so many bursts; the power goes between two of them.</summary>
    public static void FillCard(string card, int bursts, double lengthS = 2, double intervalS = 3600, VirtualFaults? faults = null)
    {
        VirtualLoggerOptions options = new()
        {
            Faults = faults ?? VirtualFaults.None,
            CardFolder = card,
            Settings = new LoggerSettings
            {
                WorksAlone = true,
                BurstLengthMilliseconds = (int)(lengthS * 1000),
                BurstIntervalMilliseconds = (int)(intervalS * 1000),
            },
        };
        VirtualLogger.VirtualLogger.RunAlone(
            new TrueTime(), options, (bursts - 0.5) * intervalS * (1 + options.Faults.SleepError));
    }

    public static IEnumerable<FileInfo> Files(string card) => new DirectoryInfo(card)
        .EnumerateFiles("*.CBF", SearchOption.AllDirectories)
        .Where(f => char.IsAsciiDigit(f.Name[0]))
        .OrderBy(f => f.Name, StringComparer.Ordinal);

    private sealed class TrueTime : IConverterSource
    {
        public bool TryRead(int channel, double timeS, out int counts)
        {
            counts = channel == Channels.Pressure ? (int)(timeS / SecondsPerCount) : 3151;
            return true;
        }
    }
}
