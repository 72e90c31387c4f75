using Clackbeat.Season.Store;

namespace Clackbeat.Season.Tests;

/// <summary>Bursts of one ram, held in memory for tests that only read series.</summary>
internal sealed class MemoryStore(IEnumerable<SeasonBurst> bursts) : ISeasonStore
{
    private readonly SeasonBurst[] _bursts = [.. bursts.OrderBy(b => b.StartUtc)];

    public IReadOnlyList<string> Rams() => [.. _bursts.Select(b => b.Ram).Distinct()];

    public int Add(IReadOnlyCollection<SeasonBurst> bursts) => throw new NotSupportedException();

    public bool Has(string ram, byte[] sourceHash) => _bursts.Any(b => b.SourceHash.AsSpan().SequenceEqual(sourceHash));

    public IReadOnlyList<SeasonPoint> Series(string ram, SeasonFigure figure, TimeSpanUtc span) =>
    [
        .. Bursts(ram, span).Where(b => b.Figures.ContainsKey(figure))
            .Select(b => new SeasonPoint(b.StartUtc, b.Figures[figure].Value, b.Figures[figure].U) { IsUpperBound = b.Figures[figure].IsUpperBound }),
    ];

    public IReadOnlyList<BurstState> States(string ram, TimeSpanUtc span) =>
        [.. Bursts(ram, span).Select(b => new BurstState(b.StartUtc, b.DurationS, b.State))];

    public IEnumerable<SeasonBurst> Bursts(string ram, TimeSpanUtc span) =>
        _bursts.Where(b => b.Ram == ram && b.StartUtc >= span.From && b.StartUtc < span.To);

    public void Add(MaintenanceMark mark) => throw new NotSupportedException();

    public IReadOnlyList<MaintenanceMark> Marks(string ram) => [];

    public void Dispose()
    {
    }
}
