using Clackbeat.Season.Overview;
using Clackbeat.Season.Store;
using Clackbeat.Signal.States;
using Clackbeat.Watch.Overview;
using Clackbeat.Watch.Web;

namespace Clackbeat.Watch.Tests;

/// <summary>A ram that is well, and one whose name is hostile and that stands still.</summary>
internal sealed class TwoRams : IOverviewStore
{
    public static DateTimeOffset Now { get; } = new(2026, 5, 1, 12, 0, 0, TimeSpan.Zero);

    public static IReadOnlyDictionary<string, RamEntry> Entries { get; } = new[]
    {
        new RamEntry("Mill", new Position(47.1, 8.2), 3000 / 86_400_000.0, "Anna"),
        new RamEntry("Ford <b>", new Position(47.11, 8.23), null, "Tom"),
    }.ToDictionary(e => e.Ram);

    /// <summary>The page of the two, on a free port.</summary>
    public static Task<OverviewServer> Serve() => OverviewServer.Start(
        new OverviewOptions
        {
            Store = new TwoRams(),
            Entries = Entries,
            Now = () => Now,
            SeasonOf = (ram, units) => System.Text.Encoding.UTF8.GetBytes($"season of {ram} in {units}"),
        },
        new PageReach(0));

    public IReadOnlyList<RamSummary> Summaries() =>
    [
        new RamSummary("Mill", new BurstState(Now.AddMinutes(-5), 60, RamState.Beating))
        {
            SpacingS = 900,
            BeatingShare = 1,
            Delivered = new RecentFigure(new SeasonValue(5 / 6e4, 0.3 / 6e4), null),
        },
        new RamSummary("Ford <b>", new BurstState(Now.AddMinutes(-9), 60, RamState.StoppedShut)) { SpacingS = 900, BeatingShare = 0 },
    ];

    public IReadOnlyList<string> Rams() => ["Ford <b>", "Mill"];

    public int Add(IReadOnlyCollection<SeasonBurst> bursts) => throw new NotSupportedException();

    public void Add(MaintenanceMark mark) => throw new NotSupportedException();

    public bool Has(string ram, byte[] sourceHash) => throw new NotSupportedException();

    public IReadOnlyList<SeasonPoint> Series(string ram, SeasonFigure figure, TimeSpanUtc span) => throw new NotSupportedException();

    public IReadOnlyList<BurstState> States(string ram, TimeSpanUtc span) => throw new NotSupportedException();

    public IEnumerable<SeasonBurst> Bursts(string ram, TimeSpanUtc span) => throw new NotSupportedException();

    public IReadOnlyList<MaintenanceMark> Marks(string ram) => throw new NotSupportedException();

    public void Dispose()
    {
    }
}
