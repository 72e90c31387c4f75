using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Signal.States;

namespace Clackbeat.Season.Alerts;

/// <summary>
/// A ram's own past in medians of days (UTC): a burst that went wrong doesn't show in them, and a year of them is a few
/// thousand numbers.
/// </summary>
public sealed class RamHistory
{
    private const int MostDays = 800;
    private const int LeastBursts = 8;

    private static readonly SeasonFigure[] Followed = [SeasonFigure.Efficiency, SeasonFigure.SupplyHead, SeasonFigure.Irregularity];

    private readonly Dictionary<SeasonFigure, List<DayValue>> _days = Followed.ToDictionary(f => f, _ => new List<DayValue>());
    private readonly Dictionary<SeasonFigure, List<(double, bool)>> _today = Followed.ToDictionary(f => f, _ => new List<(double, bool)>());
    private DateOnly? _day;

    /// <summary>Days that are over, oldest first; a day with fewer than eight bursts that tell the figure stays out.</summary>
    /// <param name="figure">Efficiency, supply head or irregularity.</param>
    public IReadOnlyList<DayValue> Days(SeasonFigure figure) => _days[figure];

    /// <summary>Reads the past from a store.</summary>
    /// <param name="store">The store.</param>
    /// <param name="ram">The ram.</param>
    /// <param name="nowUtc">Bursts from then on are left out: they come by <see cref="Take"/>.</param>
    public static RamHistory Of(ISeasonStore store, string ram, DateTimeOffset nowUtc)
    {
        var history = new RamHistory();
        var span = new TimeSpanUtc(nowUtc.AddDays(-MostDays), nowUtc);
        var today = DateOnly.FromDateTime(nowUtc.UtcDateTime);
        foreach (SeasonFigure figure in Followed)
        {
            IReadOnlyList<SeasonPoint> points = store.Series(ram, figure, span);
            history._days[figure].AddRange(DailySeries.Of(points, TimeZoneInfo.Utc).Where(d => d.Day < today && d.Bursts >= LeastBursts));
            history._today[figure].AddRange(points.Where(p => DateOnly.FromDateTime(p.AtUtc.UtcDateTime) == today).Select(p => (p.Value, p.IsUpperBound)));
        }

        history._day = today;
        return history;
    }

    /// <summary>Takes a burst.</summary>
    /// <param name="burst">The burst.</param>
    /// <returns>True when a day ended with it.</returns>
    public bool Take(SeasonBurst burst)
    {
        var day = DateOnly.FromDateTime(burst.StartUtc.UtcDateTime);
        bool ended = _day is { } before && day > before;
        if (ended)
        {
            End(_day!.Value);
        }

        // A calendar that was set back: its bursts count to the day that runs.
        _day = _day is { } running && day < running ? running : day;
        foreach (SeasonFigure figure in Followed)
        {
            if (burst.State == RamState.Beating && burst.Figures.TryGetValue(figure, out SeasonValue value))
            {
                _today[figure].Add((value.Value, value.IsUpperBound));
            }
        }

        return ended;
    }

    private void End(DateOnly day)
    {
        foreach (SeasonFigure figure in Followed)
        {
            List<(double, bool)> values = _today[figure];
            if (values.Count >= LeastBursts)
            {
                _days[figure].Add(DailySeries.Day(day, values));
            }

            values.Clear();
            if (_days[figure].Count > MostDays)
            {
                _days[figure].RemoveAt(0);
            }
        }
    }
}
