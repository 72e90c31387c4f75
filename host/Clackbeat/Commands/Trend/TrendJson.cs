using System.Text.Json.Nodes;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Season.Wording;
using static Clackbeat.Commands.Trend.TrendText;

namespace Clackbeat.Commands.Trend;

/// <summary>What trend tells, for programs: values in the unit that stands beside them, ± and intervals as in the tables.</summary>
internal static class TrendJson
{
    /// <summary>The overview.</summary>
    public static JsonObject Of(RamSeason overview) => new()
    {
        ["schema"] = "clackbeat.trend/1",
        ["ram"] = overview.Ram,
        ["from"] = Day(overview.From),
        ["to"] = Day(overview.To),
        ["figures"] = new JsonArray([.. overview.Trends.Select(Figure)]),
        ["marks"] = new JsonArray([.. overview.Marks.Select(m => Mark(m.Mark, m.Efficiency))]),
    };

    /// <summary>Days or months of water and hours.</summary>
    /// <param name="ram">The ram.</param>
    /// <param name="lines">The lines.</param>
    /// <param name="form">How their dates are written.</param>
    public static JsonObject Totals(string ram, IReadOnlyList<LedgerLine> lines, string form) => new()
    {
        ["schema"] = "clackbeat.totals/1",
        ["ram"] = ram,
        ["totals"] = new JsonArray([.. lines.Select(l => (JsonNode)new JsonObject
        {
            ["from"] = l.From.ToString(form, System.Globalization.CultureInfo.InvariantCulture),
            ["delivered_m3"] = l.MeteredH > 0 ? Bounded(Measured(l.DeliveredM3, l.DeliveredU, 3), l.IsUpperBound) : null,
            ["running_h"] = JsonOut.Number(l.RunningH, 3),
            ["metered_h"] = JsonOut.Number(l.MeteredH, 3),
            ["stopped_h"] = JsonOut.Number(l.StoppedH, 3),
            ["unrecorded_h"] = JsonOut.Number(l.UnrecordedH, 3),
            ["fatigue_used"] = l.Fatigue.Central > 0
                ? new JsonObject { ["value"] = l.Fatigue.Central, ["low"] = l.Fatigue.Low, ["high"] = l.Fatigue.High }
                : null,
        })]),
    };

    private static string? Bound(bool isUpper) => isUpper ? "upper" : null;

    private static JsonNode? Bounded(JsonNode? figure, bool isUpperBound)
    {
        if (isUpperBound && figure is JsonObject one)
        {
            one["bound"] = "upper";
        }

        return figure;
    }

    /// <summary>Hours of the calendar.</summary>
    /// <param name="ram">The ram.</param>
    /// <param name="hours">The known hours.</param>
    public static JsonObject Calendar(string ram, IReadOnlyList<CalendarHour> hours) => new()
    {
        ["schema"] = "clackbeat.calendar/1",
        ["ram"] = ram,
        ["hours"] = new JsonArray([.. hours.Select(h => (JsonNode)new JsonObject
        {
            ["day"] = Day(h.Day),
            ["hour"] = h.Hour,
            ["beating_share"] = JsonOut.Number(h.BeatingShare, 3),
            ["rate_per_min"] = JsonOut.Number(h.RatePerMin, 2),
        })]),
    };

    /// <summary>A forecast.</summary>
    /// <param name="ram">The ram.</param>
    /// <param name="figure">Of which figure.</param>
    /// <param name="limit">The limit, in the figure's unit of display.</param>
    /// <param name="forecast">The forecast; null for too few days.</param>
    public static JsonObject Of(string ram, SeasonFigure figure, double limit, Forecast? forecast) => new()
    {
        ["schema"] = "clackbeat.forecast/1",
        ["ram"] = ram,
        ["figure"] = figure.Code(),
        ["unit"] = SeasonUnit.Of(figure).Unit,
        ["limit"] = limit,
        ["day"] = When(forecast?.Day),
        ["earliest"] = When(forecast?.Earliest),
        ["latest"] = When(forecast?.Latest),
        ["enough_days"] = forecast is not null,
    };

    private static JsonObject Figure(FigureTrend trend)
    {
        var unit = SeasonUnit.Of(trend.Figure);
        JsonNode? Number(double value) => JsonOut.Number(value * unit.Factor, 6);
        return new JsonObject
        {
            ["figure"] = trend.Figure.Code(),
            ["name"] = unit.Name,
            ["unit"] = unit.Unit,
            ["at_one_supply_level"] = trend.Correction is { } level
                ? new JsonObject { ["head_m"] = JsonOut.Number(level.ReferenceHeadM, 3), ["per_m"] = Number(level.PerMetre) }
                : null,
            ["trend_per_month"] = trend.Recent is { } line
                ? new JsonObject { ["value"] = Number(line.Slope * 30), ["low"] = Number(line.Low * 30), ["high"] = Number(line.High * 30), ["since"] = When(trend.RecentFrom), ["mixes_bounds"] = trend.RecentMixesBounds }
                : null,
            ["changes"] = new JsonArray([.. trend.Changes.Where(c => SeasonText.IsSeen(trend, c)).Select(c => (JsonNode)new JsonObject
            {
                ["day"] = Day(c.At),
                ["earliest"] = Day(c.Earliest),
                ["latest"] = Day(c.Latest),
                ["before"] = Number(c.Before),
                ["after"] = Number(c.After),
                ["before_bound"] = Bound(trend.IsBoundBefore(c)),
                ["after_bound"] = Bound(trend.IsBoundAfter(c)),
            })]),
            ["months"] = new JsonArray([.. trend.Months.Select(m => (JsonNode)new JsonObject
            {
                ["month"] = m.Month,
                ["median"] = Number(m.Value),
                ["low"] = Number(m.Low),
                ["high"] = Number(m.High),
                ["years"] = m.Years,
            })]),
            ["days"] = new JsonArray([.. trend.Measured.Select(d => (JsonNode)new JsonObject
            {
                ["day"] = Day(d.Day),
                ["median"] = Number(d.Value),
                ["low"] = Number(d.Low),
                ["high"] = Number(d.High),
                ["bursts"] = d.Bursts,
                ["bound"] = Bound(d.IsUpperBound),
            })]),
        };
    }

    private static JsonObject Mark(MaintenanceMark mark, Comparison? efficiency) => new JsonObject
    {
        ["at"] = mark.AtUtc.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", System.Globalization.CultureInfo.InvariantCulture),
        ["words"] = mark.Words,
        ["efficiency_percent"] = efficiency is null ? null : new JsonObject
        {
            ["before"] = JsonOut.Number(100 * efficiency.Before, 3),
            ["after"] = JsonOut.Number(100 * efficiency.After, 3),
            ["shift"] = JsonOut.Number(100 * efficiency.Shift, 3),
            ["low"] = JsonOut.Number(100 * efficiency.Low, 3),
            ["high"] = JsonOut.Number(100 * efficiency.High, 3),
            ["before_bound"] = Bound(efficiency.BeforeIsUpperBound),
            ["after_bound"] = Bound(efficiency.AfterIsUpperBound),
        },
    };

    private static JsonObject Measured(double value, double u, int decimals) =>
        new() { ["value"] = JsonOut.Number(value, decimals), ["u"] = JsonOut.Number(u, decimals) };

    private static JsonNode? When(DateOnly? day) => day is { } d ? Day(d) : null;
}
