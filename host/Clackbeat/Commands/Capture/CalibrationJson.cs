using System.Text.Json.Nodes;
using Clackbeat.Frame;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Site.Calibrations;
using Clackbeat.Words;

namespace Clackbeat.Commands.Capture;

/// <summary>A calibration as JSON, schema <c>clackbeat.calibration/1</c>.</summary>
internal static class CalibrationJson
{
    private const int Places = 20;
    private const double Kilo = 1000;

    /// <summary>Builds the object.</summary>
    public static JsonObject Of(Calibration calibration) => new()
    {
        ["schema"] = "clackbeat.calibration/1",
        ["date"] = calibration.Date.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture),
        ["method"] = CalibrationWords.Method(calibration, Catalogue.English),
        ["points"] = new JsonArray([.. calibration.Points.Select(p => new JsonObject
        {
            ["reference"] = p.Point.Text,
            ["kind"] = p.Point.Reference.ToString().ToLowerInvariant(),
            ["counts"] = JsonOut.Number(p.Point.Counts, 3),
            ["supply_counts"] = JsonOut.Number(p.Point.SupplyCounts, 3),
            ["pressure_kpa"] = JsonOut.Number(p.Point.PressurePa / Kilo, 4),
            ["residual_kpa"] = JsonOut.Number(p.ResidualPa / Kilo, 4),
            ["from_others_kpa"] = JsonOut.Number(p.FromOthersPa / Kilo, 4),
            ["from_others_u_kpa"] = JsonOut.Number(p.FromOthersUncertaintyPa / Kilo, 4),
            ["poor"] = p.IsPoor,
        })]),
        ["curve"] = new JsonObject
        {
            ["zero_share"] = JsonOut.Number(calibration.Curve.Coefficients[0], 7),
            ["span_share"] = JsonOut.Number(calibration.Curve.Coefficients[1], 7),
            ["bow_share"] = JsonOut.Number(calibration.Curve.Coefficients[2], 7),
            ["sway_share"] = JsonOut.Number(calibration.Curve.Coefficients[3], 7),
        },
        ["range"] = new JsonArray([.. Enumerable.Range(0, Places + 1).Select(i =>
        {
            double nominal = calibration.Path.RangeLowPa + (calibration.Path.SpanPa * i / Places);
            return new JsonObject
            {
                ["nominal_kpa"] = JsonOut.Number(nominal / Kilo, 4),
                ["pressure_kpa"] = JsonOut.Number(calibration.Curve.PressurePaAt(nominal) / Kilo, 4),
                ["u_kpa"] = JsonOut.Number(calibration.Curve.UncertaintyPaAt(nominal) / Kilo, 4),
            };
        })]),
        ["warnings"] = new JsonArray([.. calibration.Warnings.Select(w => FactJson.Of(CalibrationFacts.Of(w, Site.Quantities.Units.Metric)))]),
    };
}
