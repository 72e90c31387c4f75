using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Season.Upkeep;

/// <summary>A setting, told by the mark that began it, and what it gave at a stream's low or high level.</summary>
/// <param name="Words">Words of the mark.</param>
/// <param name="From">Its day.</param>
/// <param name="DeliveredM3PerS">Median of the days' flow.</param>
/// <param name="Days">Days it rests on.</param>
/// <param name="IsCertain">The next best setting gave less, beyond what chance would do.</param>
public sealed record StreamSetting(string Words, DateOnly From, double DeliveredM3PerS, int Days, bool IsCertain);

/// <summary>Which of the settings that a ram has had gave most at low and at high stream, by the store's own marks and levels.</summary>
public static class StreamSettings
{
    private const int LeastDays = 5;

    // Less than a twentieth between the quartiles is no season of the stream.
    private const double LeastSwing = 0.05;

    /// <summary>The best setting at low and at high stream; null where fewer than two were tried at that level.</summary>
    /// <param name="store">The store.</param>
    /// <param name="ram">The ram.</param>
    /// <param name="zone">Where the days begin.</param>
    public static (StreamSetting? Low, StreamSetting? High) Of(ISeasonStore store, string ram, TimeZoneInfo zone)
    {
        IReadOnlyList<DayValue> heads = DailySeries.Of(store.Series(ram, SeasonFigure.SupplyHead, TimeSpanUtc.All), zone);
        IReadOnlyList<DayValue> flow = DailySeries.Of(store.Series(ram, SeasonFigure.Delivered, TimeSpanUtc.All), zone);
        (MaintenanceMark Mark, DateOnly Day)[] marks = [.. store.Marks(ram).Select(m => (m, DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(m.AtUtc, zone).DateTime)))];
        if (heads.Count < 4 * LeastDays || marks.Length == 0)
        {
            return (null, null);
        }

        double[] sorted = [.. heads.Select(h => h.Value).Order()];
        (double low, double middle, double high) = (SortedArrayStatistics.LowerQuartile(sorted), SortedArrayStatistics.Median(sorted), SortedArrayStatistics.UpperQuartile(sorted));
        if (high - low < LeastSwing * middle)
        {
            return (null, null);
        }

        StreamSetting? At(Func<double, bool> isLevel)
        {
            var days = heads.Where(h => isLevel(h.Value)).Select(h => h.Day).ToHashSet();
            return Best(marks, [.. flow.Where(f => days.Contains(f.Day) && !f.IsUpperBound)]);
        }

        return (At(h => h <= low), At(h => h >= high));
    }

    private static StreamSetting? Best((MaintenanceMark Mark, DateOnly Day)[] marks, DayValue[] flow)
    {
        (MaintenanceMark Mark, DateOnly Day, DayValue[] Flow)[] periods =
        [
            .. marks.Select((m, i) => (m.Mark, m.Day, flow.Where(f => f.Day > m.Day && (i + 1 == marks.Length || f.Day < marks[i + 1].Day)).ToArray()))
                .Where(p => p.Item3.Length >= LeastDays).OrderByDescending(p => Robust.Median(p.Item3.Select(f => f.Value))),
        ];
        return periods.Length < 2
            ? null
            : new StreamSetting(
                periods[0].Mark.Words, periods[0].Day, Robust.Median(periods[0].Flow.Select(f => f.Value)), periods[0].Flow.Length,
                Comparison.Between(periods[1].Flow, periods[0].Flow) is { IsCertain: true });
    }
}
