using BenchmarkDotNet.Attributes;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.VirtualSeason;

namespace Clackbeat.Benchmarks.Stages;

/// <summary>The season store: a virtual quarter with a burst every quarter of an hour.</summary>
[MemoryDiagnoser]
public class SeasonStage
{
    private readonly string _folder = Directory.CreateTempSubdirectory("clackbeat-season-").FullName;
    private SeasonBurst[] _bursts = [];
    private SqliteSeasonStore? _full;
    private SqliteSeasonStore? _growing;
    private int _turn;

    [GlobalSetup]
    public void Fill()
    {
        _bursts = [.. VirtualYear.Of(Bench.Site, SeasonScript.Quiet with { Days = 90 }).Bursts()];
        _full = SqliteSeasonStore.Open(Path.Combine(_folder, "full.db"), create: true);
        _full.Add(_bursts);
        _growing = SqliteSeasonStore.Open(Path.Combine(_folder, "growing.db"), create: true);
    }

    [GlobalCleanup]
    public void CleanUp()
    {
        _full?.Dispose();
        _growing?.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    [Benchmark(Description = "a burst stored, with its beats, and on the disk")]
    public int Stored()
    {
        SeasonBurst burst = _bursts[_turn % _bursts.Length];
        byte[] hash = [.. BitConverter.GetBytes(_turn++), .. burst.SourceHash.AsSpan(4)];
        return _growing!.Add([burst with { SourceHash = hash, StartUtc = burst.StartUtc.AddSeconds(_turn / _bursts.Length) }]);
    }

    [Benchmark(Description = "a figure's whole series read, and its change points")]
    public int Changes() =>
        ChangePoints.Find(DailySeries.Of(_full!.Series(_full.Rams()[0], SeasonFigure.Rate, TimeSpanUtc.All), TimeZoneInfo.Utc)).Count;

    [Benchmark(Description = "water, hours and fatigue by month")]
    public int Months() => Ledger.Months(Ledger.Days(_full!, _full!.Rams()[0], TimeSpanUtc.All, TimeZoneInfo.Utc)).Count;
}
