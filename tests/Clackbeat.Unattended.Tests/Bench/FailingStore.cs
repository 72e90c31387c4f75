using Clackbeat.Season.Store;

namespace Clackbeat.Unattended.Tests.Bench;

/// <summary>A store on a server that goes away.</summary>
internal sealed class FailingStore(ISeasonStore store, Func<bool> isDown) : ISeasonStore
{
    private ISeasonStore Up => isDown() ? throw new IOException("the server doesn't answer") : store;

    public IReadOnlyList<string> Rams() => Up.Rams();

    public int Add(IReadOnlyCollection<SeasonBurst> bursts) => Up.Add(bursts);

    public bool Has(string ram, byte[] sourceHash) => Up.Has(ram, sourceHash);

    public IReadOnlyList<SeasonPoint> Series(string ram, SeasonFigure figure, TimeSpanUtc span) => Up.Series(ram, figure, span);

    public IReadOnlyList<BurstState> States(string ram, TimeSpanUtc span) => Up.States(ram, span);

    public IEnumerable<SeasonBurst> Bursts(string ram, TimeSpanUtc span) => Up.Bursts(ram, span);

    public void Add(MaintenanceMark mark) => Up.Add(mark);

    public IReadOnlyList<MaintenanceMark> Marks(string ram) => Up.Marks(ram);

    public void Dispose() => store.Dispose();
}
