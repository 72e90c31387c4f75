using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;

namespace Clackbeat.Season.Alerts;

/// <summary>
/// Compares a day's efficiency with the first days since the ram was last worked on, at one supply level: a drought is no wear,
/// and a slow wear is no new usual.
/// </summary>
/// <param name="dropShare">Fall that counts, as a share of what it was.</param>
/// <param name="baselineDays">Days that tell what it was.</param>
/// <param name="leastDays">Fewer than so many tell nothing.</param>
internal sealed class EfficiencyRule(double dropShare, int baselineDays, int leastDays)
{
    private const int InARow = 3;
    private const double ClearShare = 0.7;

    // Where the level's effect isn't learnt yet, only days of nearly the same level are compared.
    private const double SameHeadShare = 0.05;

    // Six standard deviations of a day against the median of fourteen: what scatters widely must fall further to be told.
    private const double Deviations = 6;

    private DateTimeOffset? _since;

    /// <summary>Judges the day that ended; null where there is nothing to judge it by.</summary>
    /// <param name="history">The past with that day.</param>
    /// <param name="nowUtc">Now.</param>
    /// <param name="lastMark">When something was last done to the ram; null for never.</param>
    public AlertReading? Judge(RamHistory history, DateTimeOffset nowUtc, DateTimeOffset? lastMark)
    {
        _since = lastMark ?? _since;
        IReadOnlyList<DayValue> days = history.Days(SeasonFigure.Efficiency);
        IReadOnlyList<DayValue> heads = history.Days(SeasonFigure.SupplyHead);
        DateOnly yesterday = DateOnly.FromDateTime(nowUtc.UtcDateTime).AddDays(-1);
        if (days.Count == 0 || days[^1].Day != yesterday)
        {
            return null;
        }

        HeadCorrection? correction = HeadCorrection.Learn(days, heads);
        IReadOnlyList<DayValue> level = correction?.Apply(days, heads) ?? days;
        DateOnly from = _since is { } mark ? DateOnly.FromDateTime(mark.UtcDateTime).AddDays(1) : DateOnly.MinValue;
        DayValue[] well = [.. level.Where(d => d.Day >= from).Take(baselineDays)];
        if (well.Length < leastDays || level.Count == 0 || level[^1].Day != yesterday || yesterday <= well[^1].Day
            || (correction is null && !IsSameHead(heads, well, yesterday)))
        {
            return null;
        }

        double usual = Robust.Median(well.Select(d => d.Value));
        double scatter = Robust.Deviation([.. well.Select(d => d.Value)]) * Math.Sqrt(1 + (Math.PI / 2 / well.Length));
        double fall = Math.Max(dropShare * usual, Deviations * scatter);
        double now = level[^1].Value;
        Standing standing = now < usual - fall ? Standing.Beyond : now > usual - (ClearShare * fall) ? Standing.Within : Standing.Between;
        return new AlertReading(AlertKind.EfficiencyDown, nowUtc, standing, InARow, InARow)
        {
            Value = new SeasonValue(now, 2 * scatter),
            Limit = usual - fall,
            Usual = usual,
        };
    }

    private static bool IsSameHead(IReadOnlyList<DayValue> heads, DayValue[] well, DateOnly day)
    {
        double[] then = [.. heads.Where(h => well.Any(w => w.Day == h.Day)).Select(h => h.Value)];
        double[] now = [.. heads.Where(h => h.Day == day).Select(h => h.Value)];
        return then.Length > 0 && now.Length == 1 && Math.Abs(now[0] / Robust.Median(then) - 1) < SameHeadShare;
    }
}
