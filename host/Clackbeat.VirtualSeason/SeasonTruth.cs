using System.Text.Json.Nodes;

namespace Clackbeat.VirtualSeason;

/// <summary>What really happened in a virtual year.</summary>
/// <param name="Changes">Days on which the ram itself changed, and what happened.</param>
/// <param name="ReferenceHeadM">Supply head at which the slope holds [m].</param>
/// <param name="EfficiencyPerYear">What wear alone did to D'Aubuisson's efficiency, as a pace a year, from the new rubber, or the first day, to the last day.</param>
/// <param name="RunningH">Hours it ran, those of the logger's silence included.</param>
/// <param name="StoppedH">Hours it stood.</param>
/// <param name="DeliveredM3">Water delivered while the logger was awake [m³].</param>
public sealed record SeasonTruth(
    IReadOnlyList<(DateOnly Day, string What)> Changes,
    double ReferenceHeadM,
    double EfficiencyPerYear,
    double RunningH,
    double StoppedH,
    double DeliveredM3)
{
    /// <summary>As a JSON object.</summary>
    public JsonObject ToJson() => new()
    {
        ["schema"] = "clackbeat.virtual-season/1",
        ["changes"] = new JsonArray([.. Changes.Select(c => (JsonNode)new JsonObject { ["day"] = $"{c.Day:yyyy-MM-dd}", ["what"] = c.What })]),
        ["reference_head_m"] = ReferenceHeadM,
        ["efficiency_per_year"] = EfficiencyPerYear,
        ["running_h"] = RunningH,
        ["stopped_h"] = StoppedH,
        ["delivered_m3"] = DeliveredM3,
    };
}
