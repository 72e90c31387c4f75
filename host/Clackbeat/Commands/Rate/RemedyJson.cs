using System.Text.Json;
using System.Text.Json.Nodes;
using Clackbeat.Frame;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Export;
using Clackbeat.Report.Wording;
using Clackbeat.Words;

namespace Clackbeat.Commands.Rate;

/// <summary>What would help as JSON: figures are <c>{"value", "spread"}</c> over the runs, spread half of lowest to highest.</summary>
internal static class RemedyJson
{
    private const double LitrePerMinute = 60_000;

    /// <summary>Builds the object.</summary>
    public static JsonObject Of(RemedyTable table) => new()
    {
        ["runs"] = table.Runs,
        ["before"] = Of(table.AsItIs),
        ["after"] = new JsonArray([.. table.Changes.Select(Of)]),
        ["not_tried"] = new JsonArray([.. table.NotTried.Select(n => JsonValue.Create(Catalogue.English.Say(RemedyWords.NotTried(n))))]),
    };

    private static JsonObject Of(Remedy remedy) => new()
    {
        ["code"] = JsonNamingPolicy.KebabCaseLower.ConvertName(remedy.Change.Code.ToString()),
        ["change"] = Catalogue.English.Say(RemedyWords.Name(remedy.Change)),
        ["meaning"] = RemedyWords.Meaning(remedy.Change) is { } meaning ? Catalogue.English.Say(meaning) : "",
        ["peak_kpa"] = Of(remedy.PeakPa, 1e-3, 1),
        ["margin"] = remedy.Margin is { } margin ? Of(margin, 1, 2) : null,
        ["fatigue_life_years"] = remedy.LifeYears is { } life
            ? new JsonObject
            {
                ["value"] = JsonOut.Number(life.Value, 2),
                ["low"] = JsonOut.Number(life.Low, 3),
                ["high"] = JsonOut.Number(life.High, 2),
            }
            : null,
        ["delivered_l_per_min"] = Of(remedy.DeliveredM3PerS, LitrePerMinute, 2),
        ["waste_l_per_min"] = Of(remedy.WasteM3PerS, LitrePerMinute, 1),
        ["beats_per_min"] = Of(remedy.BeatsPerMin, 1, 1),
        ["verdict"] = ContractNames.Of(remedy.Verdict),
        ["fatigue_verdict"] = ContractNames.Of(remedy.FatigueVerdict),
    };

    private static JsonObject Of(Estimate estimate, double factor, int decimals) => new()
    {
        ["value"] = JsonOut.Number(estimate.Value * factor, decimals),
        ["spread"] = JsonOut.Number(estimate.HalfWidth * factor, decimals),
    };
}
