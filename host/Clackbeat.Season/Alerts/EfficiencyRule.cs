using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;

namespace Clackbeat.Season.Alerts;

/// <summary>
/// Compares a day's efficiency with the first days since the ram was last worked on, at one supply level: a drought is no wear,
/// and a slow wear is no new usual. Upper bounds are compared with upper bounds, see <see cref="JudgeBound"/>.
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

        var correction = HeadCorrection.Learn(days, heads);
        IReadOnlyList<DayValue> level = correction?.Apply(days, heads) ?? days;
        if (level.Count == 0 || level[^1].Day != yesterday)
        {
            return null;
        }

        AlertReading? Against(bool bounds) => Baseline(level, bounds, yesterday) is { } well && (correction is not null || IsSameHead(heads, well, yesterday))
            ? Compare(level[^1], well, bounds, nowUtc)
            : null;
        return level[^1].IsUpperBound ? JudgeBound(Against(bounds: false), Against(bounds: true)) : Against(bounds: false);
    }

    /// <summary>
    /// A bound that lies under the limit of the days that gave a figure tells a fall: what it bounds is lower still. A bound over it tells
    /// nothing. Against days that gave bounds too, it is judged like a figure; a figure is never judged by bounds.
    /// </summary>
    private static AlertReading? JudgeBound(AlertReading? byFigures, AlertReading? byBounds) => (byFigures, byBounds) switch
    {
        ({ Standing: Standing.Beyond }, _) => byFigures,
        (not null, { Standing: Standing.Beyond }) => byBounds,
        (not null, _) => byFigures with { Standing = Standing.Between },
        _ => byBounds,
    };

    // The first days of one kind since the ram was last worked on; null where they are too few, or reach up to the day that is judged.
    private DayValue[]? Baseline(IReadOnlyList<DayValue> level, bool bounds, DateOnly yesterday)
    {
        DateOnly from = _since is { } mark ? DateOnly.FromDateTime(mark.UtcDateTime).AddDays(1) : DateOnly.MinValue;
        DayValue[] well = [.. level.Where(d => d.Day >= from && d.IsUpperBound == bounds).Take(baselineDays)];
        return well.Length < leastDays || yesterday <= well[^1].Day ? null : well;
    }

    private AlertReading Compare(DayValue day, DayValue[] well, bool bounds, DateTimeOffset nowUtc)
    {
        double usual = Robust.Median(well.Select(d => d.Value));
        double scatter = Robust.Deviation([.. well.Select(d => d.Value)]) * Math.Sqrt(1 + (Math.PI / 2 / well.Length));
        double fall = Math.Max(dropShare * usual, Deviations * scatter);
        Standing standing = day.Value < usual - fall ? Standing.Beyond : day.Value > usual - (ClearShare * fall) ? Standing.Within : Standing.Between;
        return new AlertReading(AlertKind.EfficiencyDown, nowUtc, standing, InARow, InARow)
        {
            Value = new SeasonValue(day.Value, 2 * scatter) { IsUpperBound = day.IsUpperBound },
            Limit = usual - fall,
            Usual = usual,
            UsualIsUpperBound = bounds,
        };
    }

    private static bool IsSameHead(IReadOnlyList<DayValue> heads, DayValue[] well, DateOnly day)
    {
        double[] then = [.. heads.Where(h => well.Any(w => w.Day == h.Day)).Select(h => h.Value)];
        double[] now = [.. heads.Where(h => h.Day == day).Select(h => h.Value)];
        return then.Length > 0 && now.Length == 1 && Math.Abs(now[0] / Robust.Median(then) - 1) < SameHeadShare;
    }
}
