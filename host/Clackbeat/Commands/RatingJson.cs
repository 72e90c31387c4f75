using System.Text.Json.Nodes;
using Clackbeat.Frame;
using Clackbeat.Hydraulics.Fatigue;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Export;
using Clackbeat.Site.Model;

namespace Clackbeat.Commands;

/// <summary>The rating as JSON, schema <c>clackbeat.rating/1</c>; the names of an analysis' <c>pipe</c>, and detail beside them.</summary>
internal static class RatingJson
{
    /// <summary>Builds the object.</summary>
    public static JsonObject Of(RamSite site, PipeLoad load, PipeCheck check, RemedyTable? remedies) => new()
    {
        ["schema"] = "clackbeat.rating/1",
        ["site"] = site.Name,
        ["rated_kpa"] = KiloPascal(check.RatedPa),
        ["allowable_kpa"] = KiloPascal(check.AllowablePa),
        ["peak_kpa"] = KiloPascal(check.PeakPa),
        ["verdict"] = ContractNames.Of(check.Verdict),
        ["rule"] = check.Rule,
        ["fatigue_life_years"] = Life(check.FatigueLifeYears),
        ["rating_source"] = check.RatingSource,
        ["temperature_factor"] = JsonOut.Number(check.TemperatureFactor, 4),
        ["joint_factor"] = JsonOut.Number(check.JointFactor, 4),
        ["recurring_factor"] = JsonOut.Number(check.RecurringFactor, 4),
        ["margin"] = JsonOut.Number(check.Margin, 3),
        ["pressure_verdict"] = ContractNames.Of(check.PressureVerdict),
        ["ceiling_kpa"] = KiloPascal(check.CeilingPa),
        ["ceiling_u_kpa"] = KiloPascal(check.CeilingUncertaintyPa),
        ["ceiling_is_measured"] = check.CeilingIsMeasured,
        ["trough_kpa"] = KiloPascal(load.TroughPa),
        ["beats_per_min"] = JsonOut.Number(load.BeatsPerMin, 3),
        ["suction"] = check.Suction is { } suction ? Of(suction) : null,
        ["fatigue"] = check.Fatigue is { } fatigue ? Of(fatigue) : null,
        ["fittings"] = new JsonArray([.. check.Fittings.Select(f => new JsonObject
        {
            ["name"] = f.Name,
            ["allowable_kpa"] = KiloPascal(f.AllowablePa),
            ["verdict"] = ContractNames.Of(f.Verdict),
        })]),
        ["explanation"] = string.Join(" ", check.Explanation),
        ["notes"] = Texts(check.Notes.Select(n => n.ToString())),
        ["alternatives"] = new JsonArray([.. check.Alternatives.Select(a => new JsonObject
        {
            ["allowable_kpa"] = KiloPascal(a.AllowablePa),
            ["basis"] = a.Basis,
        })]),
        ["what_helps"] = remedies is null ? null : RemedyJson.Of(remedies),
        ["caution"] = PipeCheck.Deferral,
    };

    private static JsonObject Of(SuctionCheck suction) => new()
    {
        ["verdict"] = ContractNames.Of(suction.CollapseVerdict),
        ["suction_kpa"] = KiloPascal(suction.SuctionPa),
        ["collapse_kpa"] = KiloPascal(suction.CollapsePa),
        ["vapour_margin_kpa"] = KiloPascal(suction.VapourMarginPa),
        ["vapour"] = suction.Cavity switch
        {
            CavityState.Whole => "clear",
            CavityState.Likely => "likely",
            CavityState.Reached => "reached",
            _ => "unknown",
        },
    };

    private static JsonObject Of(FatigueCheck fatigue) => new()
    {
        ["verdict"] = ContractNames.Of(fatigue.Verdict),
        ["beats_per_year"] = JsonOut.Number(fatigue.BeatsPerYear, 0),
        ["beyond_tested"] = fatigue.BeyondTested,
        ["explanation"] = fatigue.Explanation,
        ["curves"] = new JsonArray([.. fatigue.Curves.Select(c => new JsonObject
        {
            ["name"] = c.Name,
            ["source"] = c.Source,
            ["life_years"] = JsonOut.Number(c.LifeYears, 2),
            ["beyond_tested"] = c.BeyondTested,
        })]),
    };

    private static JsonObject? Life(FatigueLife? life) => life is null ? null : new JsonObject
    {
        ["value"] = JsonOut.Number(life.Value, 2),
        ["low"] = JsonOut.Number(life.Low, 2),
        ["high"] = JsonOut.Number(life.High, 2),
    };

    private static JsonNode? KiloPascal(double? pressurePa) => JsonOut.Number(pressurePa / 1000, 2);

    private static JsonArray Texts(IEnumerable<string> texts) => [.. texts.Select(t => JsonValue.Create(t))];
}
