using System.Globalization;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Season.Wording;

/// <summary>Trends, changes and marks of a ram as a keeper reads them.</summary>
/// <param name="units">The reader's units.</param>
public sealed class SeasonText(Units units)
{
    /// <summary>Whether a change shows in the digits a keeper reads; one that doesn't is no news.</summary>
    /// <param name="trend">The figure.</param>
    /// <param name="change">One of its changes.</param>
    public static bool IsSeen(FigureTrend trend, ChangePoint change)
    {
        var unit = SeasonUnit.Of(trend.Figure);
        return unit.Text(change.Before) != unit.Text(change.After);
    }

    /// <summary>A day.</summary>
    /// <param name="day">The day.</param>
    public static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>When a change came: a day, and within which days where that isn't certain.</summary>
    /// <param name="change">The change.</param>
    public static string Days(ChangePoint change) => (int)change.Earliest == (int)change.Latest
        ? Day(change.At)
        : Phrases.Say("trend.day-between", ("day", Day(change.At)), ("earliest", Day(change.Earliest)), ("latest", Day(change.Latest)));

    /// <summary>A figure's line in a table: name, first week, last week, trend a month, and since when.</summary>
    /// <param name="trend">The figure.</param>
    public string[] Row(FigureTrend trend)
    {
        var unit = SeasonUnit.Of(trend.Figure, units);
        string Week(IEnumerable<DayValue> days) => Bound(FigureTrend.AreBounds(days)) + unit.Number(days.Average(d => d.Value));
        string slope = trend.Recent is { } line
            ? Phrases.Say("trend.slope", ("slope", unit.Number(line.Slope * 30)), ("low", unit.Number(line.Low * 30)), ("high", unit.Number(line.High * 30)))
            : Phrases.Say("trend.few-days");
        return [unit.Label, Week(trend.Measured.Take(7)), Week(trend.Measured.TakeLast(7)), slope, trend.RecentFrom is { } from ? Day(from) : ""];
    }

    /// <summary>A change.</summary>
    /// <param name="trend">The figure.</param>
    /// <param name="change">One of its changes.</param>
    public string Of(FigureTrend trend, ChangePoint change)
    {
        var unit = SeasonUnit.Of(trend.Figure, units);
        return Phrases.Say(
            "trend.change", ("days", Days(change)), ("figure", unit.Name), ("before", Bound(trend.IsBoundBefore(change)) + unit.Text(change.Before)),
            ("after", Bound(trend.IsBoundAfter(change)) + unit.Text(change.After)));
    }

    /// <summary>A mark, and what it brought.</summary>
    /// <param name="marked">The mark, and the efficiency after against before; null for too few days.</param>
    public string Of((MaintenanceMark Mark, Comparison? Efficiency) marked)
    {
        string day = Day(DateOnly.FromDateTime(marked.Mark.AtUtc.LocalDateTime));
        if (marked.Efficiency is not { } told)
        {
            return Phrases.Say("trend.mark-few-days", ("day", day), ("words", marked.Mark.Words));
        }

        var unit = SeasonUnit.Of(SeasonFigure.Efficiency, units);
        string before = Bound(told.BeforeIsUpperBound) + unit.Text(told.Before);
        string after = Bound(told.AfterIsUpperBound) + unit.Text(told.After);
        return told.MixesBounds
            ? Phrases.Say("trend.mark-mixed", ("day", day), ("words", marked.Mark.Words), ("before", before), ("after", after))
            : Phrases.Say(
                "trend.mark-shift", ("day", day), ("words", marked.Mark.Words), ("before", before), ("after", after),
                ("shift", unit.Difference(told.Before, told.After)), ("low", unit.Number(told.Low)), ("high", unit.Number(told.High)));
    }

    private static string Day(double dayNumber) => Day(DateOnly.FromDayNumber((int)dayNumber));

    private static string Bound(bool isUpper) => isUpper ? Phrases.Say("trend.at-most") : "";
}
