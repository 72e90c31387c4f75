using System.Text.Json.Nodes;
using Clackbeat.Frame;
using Clackbeat.Hydraulics;
using Clackbeat.Planning.Bills;
using Clackbeat.Planning.Demand;
using Clackbeat.Planning.Others;
using Clackbeat.Planning.Plans;
using Clackbeat.Planning.Wishes;
using Clackbeat.Report.Export;
using Clackbeat.Report.Planned;
using Clackbeat.Report.Wording;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Files;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Commands.Plan;

/// <summary>A plan as JSON, schema <c>clackbeat.plan/1</c>. A figure's <c>u</c> is half the width of its band.</summary>
internal static class PlanJson
{
    private const double LitresPerMinute = 60_000;
    /// <summary>From m³/s.</summary>
    internal const double LitresPerDay = 86_400_000;

    /// <summary>Builds the object.</summary>
    public static JsonObject Of(RamPlan plan)
    {
        // The same in every language, as all JSON.
        using IDisposable english = Catalogue.Use(Catalogue.English);
        return new JsonObject
        {
            ["schema"] = "clackbeat.plan/1",
            ["ram_kind"] = KindOf(plan.Wish.Kind),
            ["refusal"] = plan.Refusal is { } refusal ? Of(refusal) : null,
            ["needs"] = Of(plan.Wish.Uses.Select(u => u.Fact)),
            ["choices"] = new JsonArray([.. plan.Choices.Select(Of)]),
            ["alternatives"] = new JsonArray([.. plan.Alternatives.Select(Of)]),
            ["enough"] = plan.Enough is { } enough ? Of(enough) : null,
            ["remarks"] = Of(plan.Remarks),
            ["would_change"] = Of(plan.WouldChange),
            ["caution"] = Of(Cautions.All),
        };
    }

    private static JsonObject Of(RamChoice choice) => new()
    {
        ["count"] = choice.Count,
        ["drive_pipe"] = new JsonObject
        {
            ["length_m"] = JsonOut.Number(choice.Length.LengthM, 2),
            ["bore_mm"] = JsonOut.Number(1000 * choice.Size.BoreM, 2),
            ["material"] = MaterialNames.Of(choice.Size.Pipe.Material),
            ["size"] = choice.Size.Pipe.Size,
            ["class"] = choice.Size.Pipe.Class,
            ["rated_kpa"] = JsonOut.Number(choice.Pipe.RatedPa / 1000, 1),
            ["allowable_kpa"] = JsonOut.Number(choice.Pipe.AllowablePa / 1000, 1),
            ["verdict"] = ContractNames.Of(choice.Pipe.Verdict),
            ["rule"] = PipeWords.Rule(choice.Pipe),
            ["fatigue_verdict"] = ContractNames.Of(choice.Pipe.FatigueVerdict),
            ["fatigue_life_years"] = choice.Pipe.FatigueLifeYears is { } life
                ? new JsonObject { ["value"] = JsonOut.Number(life.Value, 1), ["low"] = JsonOut.Number(life.Low, 1), ["high"] = JsonOut.Number(life.High, 1) }
                : null,
        },
        ["drive_flow_l_per_min"] = JsonOut.Number(LitresPerMinute * choice.DriveFlowM3PerS, 3),
        ["delivered_l_per_min"] = Figure(choice.DeliveredM3PerS, LitresPerMinute, 4),
        ["delivered_l_per_day"] = Figure(choice.DeliveredM3PerS, LitresPerDay, 1),
        ["dry_delivered_l_per_min"] = Figure(choice.DryDeliveredM3PerS, LitresPerMinute, 4),
        ["efficiency"] = Figure(choice.Efficiency, 1, 4),
        ["beats_per_min"] = Figure(choice.BeatsPerMin, 1, 1),
        ["peak_kpa"] = Figure(choice.PeakPa, 1e-3, 1),
        ["delivery_main"] = new JsonObject
        {
            ["length_m"] = JsonOut.Number(choice.Main.LengthM, 1),
            ["length_assumed"] = choice.Main.IsLengthAssumed,
            ["material"] = MaterialNames.Of(choice.Main.Material),
            ["size"] = choice.Main.Size,
            ["outside_mm"] = JsonOut.Number(1000 * choice.Main.OutsideM, 1),
            ["bore_mm"] = JsonOut.Number(1000 * choice.Main.BoreM, 1),
            ["class"] = choice.Main.Class,
            ["rated_kpa"] = JsonOut.Number(choice.Main.RatedPa / 1000, 0),
            ["friction_m"] = JsonOut.Number(choice.Main.FrictionM, 2),
        },
        ["air_vessel_l"] = JsonOut.Number(1000 * choice.AirVesselM3, 2),
        ["intake"] = new JsonObject
        {
            ["depth_over_pipe_m"] = JsonOut.Number(choice.Intake.SubmergenceM, 2),
            ["header_tank_l"] = JsonOut.Number(1000 * choice.Intake.TankM3, 0),
            ["strainer_open_cm2"] = JsonOut.Number(1e4 * choice.Intake.OpenAreaM2, 0),
            ["strainer_hole_mm"] = JsonOut.Number(1000 * choice.Intake.HoleM, 1),
        },
        ["months"] = new JsonArray([.. choice.Months.Select(m => new JsonObject
        {
            ["month"] = m.Month,
            ["supply_l_per_min"] = JsonOut.Number(LitresPerMinute * m.SupplyM3PerS, 2),
            ["running"] = m.Running,
            ["delivered_l_per_min"] = Figure(m.DeliveredM3PerS, LitresPerMinute, 4),
            ["need_l_per_min"] = JsonOut.Number(LitresPerMinute * m.NeedM3PerS, 4),
        })]),
        ["bill"] = Of(RamBill.Of(choice, null)),
        ["reasons"] = Of(choice.Reasons),
    };

    private static JsonObject Of(Alternative other) => new()
    {
        ["kind"] = other.Code,
        ["water_l_per_day"] = new JsonArray([.. other.WaterM3PerS.Select(w => Figure(w, LitresPerDay, 1))]),
        ["takes_by_month"] = new JsonObject
        {
            ["unit"] = UnitOf(other.Code),
            ["months"] = new JsonArray([.. other.Takes.Select(t => Figure(t, 1, 3))]),
        },
        ["energy_kwh_per_day"] = Figure(other.EnergyPerDayJ, 1 / 3.6e6, 3),
        ["power_w"] = Figure(other.PowerW, 1, 1),
        ["bill"] = Of(other.Bill),
        ["assumptions"] = Of(other.Assumptions),
        ["wear"] = Of(other.Wear),
    };

    internal static JsonObject Of(Sufficiency enough) => new()
    {
        ["need_l_per_day"] = new JsonArray([.. enough.NeedM3PerS.Select(n => JsonOut.Number(LitresPerDay * n, 1))]),
        ["delivered_l_per_day"] = new JsonArray([.. enough.DeliveredM3PerS.Select(d => Figure(d, LitresPerDay, 1))]),
        ["shortfall"] = JsonOut.Number(enough.Shortfall, 4),
        ["tank_m3"] = JsonOut.Number(enough.TankM3, 2),
        ["cautious_tank_m3"] = JsonOut.Number(enough.CautiousTankM3, 2),
        ["short_months"] = new JsonArray([.. enough.ShortMonths.Select(m => JsonValue.Create(m))]),
        ["doubtful_months"] = new JsonArray([.. enough.DoubtfulMonths.Select(m => JsonValue.Create(m))]),
    };

    private static JsonArray Of(IEnumerable<BillItem> bill) => new([.. bill.Select(b => new JsonObject
    {
        ["item"] = b.Code,
        ["detail"] = b.Detail is { } detail ? Text(detail) : null,
        ["quantity"] = JsonOut.Number(b.Quantity, 2),
        ["unit"] = UnitOf(b.Unit),
        ["price"] = JsonOut.Number(b.Price, 4),
        ["cost"] = JsonOut.Number(b.Cost, 2),
    })]);

    internal static JsonArray Of(IEnumerable<Fact> facts) => new([.. facts.Select(Of)]);

    private static JsonObject Of(Fact fact)
    {
        var values = new JsonObject();
        foreach (FactValue value in fact.Values)
        {
            values[value.Name] = value.Number is { } number ? JsonOut.Number(number, 6) : value.Word ?? string.Join(", ", Catalogue.English.Say(value.Facts ?? []));
        }

        return new JsonObject { ["code"] = fact.Code, ["values"] = values, ["text"] = Text(fact) };
    }

    internal static JsonObject Figure(Band band, double factor, int decimals) => new()
    {
        ["value"] = JsonOut.Number(factor * band.Middle, decimals),
        ["u"] = JsonOut.Number(factor * (band.High - band.Low) / 2, decimals),
    };

    // The same in every language and in SI, as all JSON.
    private static string Text(Fact fact)
    {
        using IDisposable english = Catalogue.Use(Catalogue.English);
        return PlanWords.Say(fact, Units.Metric);
    }

    private static string UnitOf(BillUnit unit) => unit switch
    {
        BillUnit.Metre => "m",
        BillUnit.CubicMetre => "m³",
        BillUnit.Watt => "W",
        BillUnit.LitreAYear => "L a year",
        BillUnit.KilowattHourAYear => "kWh a year",
        _ => "piece",
    };

    private static string? UnitOf(string pump) => pump switch
    {
        Alternative.SolarPump => "W of panels",
        Alternative.EnginePump => "L of petrol a day",
        Alternative.MainsPump => "kWh a day",
        _ => null,
    };

    private static string KindOf(RamKind kind) => kind switch
    {
        RamKind.Cast => "cast",
        RamKind.HomeMade => "home-made",
        _ => "unknown",
    };
}
