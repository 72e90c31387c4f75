using System.Text.Json;
using System.Text.Json.Nodes;
using Clackbeat.Frame;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Export;
using Clackbeat.Report.Wording;
using Clackbeat.Site.Model;
using Clackbeat.Words;

namespace Clackbeat.Commands.Rate;

/// <summary>The rating as JSON, schema <c>clackbeat.rating/1</c>; the names of an analysis' <c>pipe</c>, and detail beside them.</summary>
internal static class RatingJson
{
    /// <summary>Builds the object.</summary>
    public static JsonObject Of(RamSite site, PipeLoad load, PipeCheck check, RemedyTable? remedies)
    {
        using IDisposable english = Catalogue.Use(Catalogue.English);
        return Written(site, load, check, remedies);
    }

    private static JsonObject Written(RamSite site, PipeLoad load, PipeCheck check, RemedyTable? remedies) => new()
    {
        ["schema"] = "clackbeat.rating/1",
        ["site"] = site.Name,
        ["rated_kpa"] = KiloPascal(check.RatedPa),
        ["allowable_kpa"] = KiloPascal(check.AllowablePa),
        ["peak_kpa"] = KiloPascal(check.PeakPa),
        ["verdict"] = ContractNames.Of(check.Verdict),
        ["rule"] = PipeWords.Rule(check),
        ["fatigue_verdict"] = ContractNames.Of(check.FatigueVerdict),
        ["fatigue_life_years"] = Life(check.FatigueLifeYears),
        ["rating_source"] = PipeWords.Source(check.Source),
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
        ["fatigue"] = check.Fatigue is { } fatigue ? Of(check, fatigue) : null,
        ["weakest"] = check.Weakest,
        ["sections"] = new JsonArray([.. check.Stretches.Select(s => new JsonObject
        {
            ["name"] = s.Name,
            ["allowable_kpa"] = KiloPascal(s.AllowablePa),
            ["verdict"] = ContractNames.Of(s.Verdict),
        })]),
        ["fittings"] = new JsonArray([.. check.Fittings.Select(f => new JsonObject
        {
            ["name"] = f.Name,
            ["allowable_kpa"] = KiloPascal(f.AllowablePa),
            ["verdict"] = ContractNames.Of(f.Verdict),
        })]),
        ["explanation"] = string.Join(" ", PipeWords.Explanation(check)),
        ["notes"] = Texts(PipeWords.Notes(check).Select(n => n.ToString())),
        ["remarks"] = new JsonArray([.. check.Remarks.Concat(check.Notes).Select(Of)]),
        ["alternatives"] = new JsonArray([.. check.Alternatives.Select(a => new JsonObject
        {
            ["allowable_kpa"] = KiloPascal(a.AllowablePa),
            ["code"] = Code(a.Basis),
            ["basis"] = PipeWords.Basis(a),
        })]),
        ["what_helps"] = remedies is null ? null : RemedyJson.Of(remedies),
        ["caution"] = PipeWords.Deferral,
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

    private static JsonObject Of(PipeCheck check, FatigueCheck fatigue) => new()
    {
        ["verdict"] = ContractNames.Of(fatigue.Verdict),
        ["beats_per_year"] = JsonOut.Number(fatigue.BeatsPerYear, 0),
        ["beyond_tested"] = fatigue.BeyondTested,
        ["rule"] = Code(fatigue.Rule),
        ["lack"] = Code(fatigue.Lack),
        ["curve_ratio"] = JsonOut.Number(fatigue.CurveRatio, 1),
        ["explanation"] = string.Join(" ", PipeWords.Fatigue(check)),
        ["curves"] = new JsonArray([.. fatigue.Curves.Select(c => new JsonObject
        {
            ["name"] = c.Name,
            ["source"] = c.Source,
            ["life_years"] = JsonOut.Number(c.LifeYears, 2),
            ["beyond_tested"] = c.BeyondTested,
        })]),
    };

    private static JsonObject Of(RatingRemark remark) => new()
    {
        ["code"] = Code(remark.Code),
        ["pressure_kpa"] = KiloPascal(remark.PressurePa),
        ["u_kpa"] = KiloPascal(remark.UncertaintyPa),
        ["limit_kpa"] = KiloPascal(remark.LimitPa),
        ["part"] = remark.Part.Length > 0 ? remark.Part : null,
        ["text"] = PipeWords.Of(remark).ToString(),
    };

    private static string Code(Enum name) => JsonNamingPolicy.KebabCaseLower.ConvertName(name.ToString());

    private static JsonObject? Life(FatigueLife? life) => life is null ? null : new JsonObject
    {
        ["value"] = JsonOut.Number(life.Value, 2),
        ["low"] = JsonOut.Number(life.Low, 2),
        ["high"] = JsonOut.Number(life.High, 2),
    };

    private static JsonNode? KiloPascal(double? pressurePa) => JsonOut.Number(pressurePa / 1000, 2);

    private static JsonArray Texts(IEnumerable<string> texts) => [.. texts.Select(t => JsonValue.Create(t))];
}
