using System.Text.Json.Nodes;
using Clackbeat.Frame;
using Clackbeat.Hydraulics;
using Clackbeat.Site.Check;
using Clackbeat.Words;

namespace Clackbeat.Commands.Describe;

/// <summary>The check of a site file as JSON, schema <c>clackbeat.site-check/2</c>.</summary>
internal static class SiteCheckJson
{
    private const double LitresPerMinute = 60_000;
    private const double Kilo = 1000;

    /// <summary>Builds the object.</summary>
    public static JsonObject Of(string file, SiteCheck check) => new()
    {
        ["schema"] = "clackbeat.site-check/2",
        ["file"] = file,
        ["name"] = check.Site?.Name,
        ["place"] = check.Site?.Place,
        ["keeper"] = check.Site?.Keeper,
        ["note"] = check.Site?.Note,
        ["ok"] = check.Problems.Count == 0,
        ["problems"] = new JsonArray([.. check.Problems.Select(p => new JsonObject
        {
            ["line"] = p.Line,
            ["message"] = Catalogue.English.Say(p.What),
            ["code"] = p.What.Code,
            ["values"] = FactJson.Of(p.What)["values"]!.DeepClone(),
        })]),
        ["advice"] = new JsonArray([.. check.Advice.Select(a => FactJson.Of(a))]),
        ["left_out"] = new JsonArray([.. check.LeftOut.SelectMany(l => l.Keys.Select(k => new JsonObject
        {
            ["key"] = k,
            ["weakens"] = l.Weakens,
        }))]),
        ["expected"] = check.Expected is { } expected ? Of(expected) : null,
    };

    private static JsonObject Of(ExpectedFigures expected) => new()
    {
        ["beats_per_min"] = Range(expected.Ram.BeatsPerMin, 1, 1),
        ["closing_velocity_m_per_s"] = Range(expected.Ram.ClosingVelocityMPerS, 1, 3),
        ["least_closing_velocity_m_per_s"] = JsonOut.Number(expected.Ram.LeastClosingVelocityMPerS, 3),
        ["delivered_l_per_min"] = Range(expected.Ram.DeliveredM3PerS, LitresPerMinute, 3),
        ["waste_l_per_min"] = Range(expected.Ram.WasteM3PerS, LitresPerMinute, 2),
        ["daubuisson"] = Range(expected.Ram.DAubuisson, 1, 3),
        ["static_kpa"] = JsonOut.Number(expected.StaticPa / Kilo, 2),
        ["delivery_kpa"] = JsonOut.Number(expected.DeliveryPa / Kilo, 2),
        ["peak_ceiling_kpa"] = Range(expected.Ram.PeakCeilingPa, 1 / Kilo, 1),
        ["sensor_range_kpa"] = JsonOut.Number(expected.Sensing.RangeToBuyPa / Kilo, 1),
        ["wave_speed_m_per_s"] = JsonOut.Number(expected.Hydraulics.WaveSpeedMPerS, 1),
        ["pipe_period_s"] = JsonOut.Number(expected.Ram.PipePeriodS, 5),
        ["least_sampling_rate_hz"] = JsonOut.Number(expected.LeastSamplingRateHz, 0),
        ["usable_kpa"] = Range(expected.Sensing.UsablePa, 1 / Kilo, 2),
        ["step_kpa"] = JsonOut.Number(expected.Sensing.StepPa / Kilo, 5),
        ["filter_corner_hz"] = JsonOut.Number(expected.Sensing.Filter.CornerHz, 1),
        ["tap_line_hz"] = JsonOut.Number(expected.Sensing.TapLineHz, 1),
        ["battery_cut_off_counts"] = JsonOut.Number(expected.Sensing.BatteryCutOffCounts, 0),
        ["battery_days"] = JsonOut.Number(expected.Sensing.BatteryDays, 1),
    };

    private static JsonObject Range(Band band, double factor, int decimals) => new()
    {
        ["low"] = JsonOut.Number(band.Low * factor, decimals),
        ["high"] = JsonOut.Number(band.High * factor, decimals),
    };
}
