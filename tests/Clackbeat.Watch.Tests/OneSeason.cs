using Clackbeat.Season.Store;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.States;
using Clackbeat.Testing;
using Clackbeat.Watch.Overview;
using Clackbeat.Watch.Web;

namespace Clackbeat.Watch.Tests;

/// <summary>
/// Two months of a ram in a store on the disk: four bursts a day at an efficiency of 50 %, a new rubber, then 60 %. Of one day nothing
/// is recorded, on another it stood still.
/// </summary>
internal sealed class OneSeason : IDisposable
{
    public const string Ram = "Mill <b>";

    private readonly TemporaryFolder _folder = new();

    public OneSeason()
    {
        Store = SqliteSeasonStore.Open(_folder["rams.db"], create: true);
        Store.Add([.. Enumerable.Range(0, 60).Where(d => d != 10).SelectMany(d => Enumerable.Range(0, 4).Select(b => Burst(d, b)))]);
        Store.Add(new MaintenanceMark(Ram, First.AddDays(30), "new rubber"));
    }

    /// <summary>Noon, so that the day is the same in most time zones.</summary>
    public static DateTimeOffset First { get; } = new(2026, 3, 1, 4, 0, 0, TimeSpan.Zero);

    public static DateTimeOffset Now { get; } = First.AddDays(60);

    public SqliteSeasonStore Store { get; }

    public string this[string name] => _folder[name];

    /// <summary>The start of a day's first burst.</summary>
    public static DateTimeOffset Start(int day) => First.AddDays(day);

    public OverviewOptions Options() => new()
    {
        Store = Store,
        Now = () => Now,
        SeasonOf = (ram, units) => System.Text.Encoding.UTF8.GetBytes($"report of {ram} in {units}"),
    };

    public Task<OverviewServer> Serve() => OverviewServer.Start(Options(), new PageReach(0));

    public void Dispose()
    {
        Store.Dispose();
        _folder.Dispose();
    }

    private static SeasonBurst Burst(int day, int number)
    {
        bool isAfter = day >= 30;
        bool stands = day == 20;
        double efficiency = isAfter ? 0.6 : 0.5;
        return new SeasonBurst
        {
            Ram = Ram,
            SourceHash = [.. Enumerable.Repeat((byte)day, 31), (byte)number],
            Source = "made-up.cbrec",
            StartUtc = First.AddDays(day).AddHours(4 * number),
            DurationS = 60,
            State = stands ? RamState.StoppedShut : RamState.Beating,
            Figures = stands
                ? new Dictionary<SeasonFigure, SeasonValue> { [SeasonFigure.SupplyHead] = new(3, 0.02) }
                : new Dictionary<SeasonFigure, SeasonValue>
                {
                    [SeasonFigure.SupplyHead] = new(3, 0.02),
                    [SeasonFigure.Rate] = new(60, 0.1),
                    [SeasonFigure.Efficiency] = new(efficiency, isAfter ? 0.04 : 0.03),
                    [SeasonFigure.Delivered] = new(efficiency * 1e-4, 5e-6),
                    [SeasonFigure.PeakTrue] = new(4e5, 2e4),
                },
            Beats = stands ? [] : [.. Enumerable.Range(0, 5).Select(i => new SeasonBeat(i, 1, 4e5 + (1000 * i), 2.5e5, -1e4, new BeatFlow(1.3, efficiency * 1e-4, 1.5e-3)))],
        };
    }
}
