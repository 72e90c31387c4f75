using Clackbeat.Logger.Alone;
using Clackbeat.Protocol;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;

namespace Clackbeat.Logger.Tests.Alone;

/// <summary>
/// A logger left alone with a card: two-second bursts, one a minute. Its converter counts the true seconds, so that
/// every sample tells when it was really taken, whatever the logger believes.
/// </summary>
internal sealed class LoneBench : IDisposable
{
    public const int BurstS = 2;
    public const int IntervalS = 60;

    public LoneBench(long? cardBytes = null)
    {
        Card = new FolderCard(Folder, cardBytes);
    }

    public string Folder { get; } = Directory.CreateTempSubdirectory("clackbeat-card").FullName;

    public FolderCard Card { get; }

    public LoggerSettings Settings { get; } = new()
    {
        WorksAlone = true,
        BurstLengthMilliseconds = BurstS * 1000,
        BurstIntervalMilliseconds = IntervalS * 1000,
        ChannelMask = (1 << Channels.Pressure) | (1 << Channels.Supply) | (1 << Channels.Battery),
        HostSilenceMilliseconds = 2000,
    };

    public VirtualLoggerOptions Options(VirtualFaults? faults = null) =>
        new() { Settings = Settings, Faults = faults ?? VirtualFaults.None, Pace = Pace.AsFastAsRead, CardFolder = Folder };

    /// <summary>Gives power for a time; at its end it goes.</summary>
    public void Run(double lengthS, VirtualFaults? faults = null, Func<VirtualLoggerOptions, VirtualLoggerOptions>? change = null)
    {
        VirtualLoggerOptions options = Options(faults);
        VirtualLogger.VirtualLogger.RunAlone(new TrueSeconds(), change?.Invoke(options) ?? options, lengthS, Card);
    }

    public IEnumerable<string> Files => Directory
        .EnumerateFiles(Folder, "*" + BurstNames.Ending, SearchOption.AllDirectories)
        .Where(f => BurstNames.NumberOf(f) > 0)
        .Order(StringComparer.Ordinal);

    public IEnumerable<uint> Numbers => Files.Select(BurstNames.NumberOf);

    public string PathOf(uint burst) => Path.Combine(Folder, BurstNames.Folder(burst), BurstNames.File(burst));

    public CardFile Read(uint burst) => CardFile.Read(PathOf(burst));

    public string StatePath(int slot) => Path.Combine(Folder, BurstNames.State(slot));

    public void Dispose()
    {
        Card.Dispose();
        Directory.Delete(Folder, recursive: true);
    }

    public sealed class TrueSeconds : IConverterSource
    {
        public const int BatteryCounts = 2222;

        public bool TryRead(int channel, double timeS, out int counts)
        {
            counts = channel switch
            {
                Channels.Pressure => (int)timeS % 4096,
                Channels.Supply => 3150,
                _ => BatteryCounts,
            };
            return true;
        }
    }
}
