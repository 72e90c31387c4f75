using System.Diagnostics;
using Clackbeat.Season.Store;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.VirtualSeason;

namespace Clackbeat.Season.Tests;

/// <summary>One virtual year in a store on the disk, for all tests that read it.</summary>
public sealed class VirtualYearFixture : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    /// <summary>A burst an hour; CLACKBEAT_LONG=1 asks for the four of a real logger.</summary>
    public static TimeSpan Every { get; } = TimeSpan.FromMinutes(Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1" ? 15 : 60);

    public VirtualYearFixture()
    {
        Site = SiteFile.Parse(SiteTemplate.Text(Units.Metric), "the template");
        Year = VirtualYear.Of(Site, new SeasonScript { Every = Every });
        Path = _folder["year.db"];
        Store = SqliteSeasonStore.Open(Path, create: true);
        var clock = Stopwatch.StartNew();
        foreach (SeasonBurst[] batch in Year.Bursts().Chunk(500))
        {
            Bursts += Store.Add(batch);
            Beats += batch.Sum(b => (long)b.Beats.Count);
        }

        StoringTook = clock.Elapsed;
        foreach (MaintenanceMark mark in Year.Marks())
        {
            Store.Add(mark);
        }
    }

    public RamSite Site { get; }

    public VirtualYear Year { get; }

    public string Path { get; }

    public SqliteSeasonStore Store { get; }

    public int Bursts { get; }

    public long Beats { get; }

    public TimeSpan StoringTook { get; }

    public void Dispose()
    {
        Store.Dispose();
        _folder.Dispose();
    }
}
