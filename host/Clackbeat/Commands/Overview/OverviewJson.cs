using System.Globalization;
using System.Text.Json.Nodes;
using Clackbeat.Frame;
using Clackbeat.Season.Overview;
using Clackbeat.Season.Store;

namespace Clackbeat.Commands.Overview;

/// <summary>All rams for programs.</summary>
internal static class OverviewJson
{
    private const double LitresADay = 86_400_000;

    /// <summary>The object that <c>--json</c> promises.</summary>
    public static JsonObject Of(IReadOnlyList<RamVisit> visits, DateTimeOffset atUtc) => new()
    {
        ["schema"] = "clackbeat.overview/1",
        ["at"] = Time(atUtc),
        ["rams"] = new JsonArray([.. visits.Select(Ram)]),
    };

    private static JsonObject Ram(RamVisit visit) => new()
    {
        ["ram"] = visit.Summary.Ram,
        ["urgency"] = visit.Urgency.ToString().ToLowerInvariant(),
        ["state"] = StateWord(visit),
        ["last_record"] = Time(visit.Summary.Last.AtUtc),
        ["delivered_l_per_day"] = visit.DailyM3PerS is { } water ? Figure(water) : null,
        ["share_of_usual"] = JsonOut.Number(visit.ShareOfUsual, 3),
        ["share_of_need"] = JsonOut.Number(visit.ShareOfNeed, 3),
        ["rating_use"] = JsonOut.Number(visit.Summary.RatingUse?.Week.Value, 3),
        ["condition"] = visit.Condition is { } fault
            ? new JsonObject { ["code"] = fault.Code, ["probability"] = JsonOut.Number(fault.Probability, 3) }
            : null,
        ["reasons"] = new JsonArray([.. visit.Reasons.Select(r => FactJson.Of(r))]),
        ["to_do"] = visit.ToDo is { } toDo ? FactJson.Of(toDo) : null,
        ["last_visit"] = visit.Summary.LastMark is { } mark ? new JsonObject { ["at"] = Time(mark.AtUtc), ["words"] = mark.Words } : null,
    };

    private static string StateWord(RamVisit visit) => System.Text.Json.JsonNamingPolicy.KebabCaseLower.ConvertName(visit.Summary.Last.State.ToString());

    private static JsonObject Figure(SeasonValue value)
    {
        var figure = new JsonObject
        {
            ["value"] = JsonOut.Number(LitresADay * value.Value, 1),
            ["u"] = JsonOut.Number(LitresADay * value.U, 1),
        };
        if (value.IsUpperBound)
        {
            figure["bound"] = "upper";
        }

        return figure;
    }

    private static string Time(DateTimeOffset at) => at.UtcDateTime.ToString("O", CultureInfo.InvariantCulture);
}
