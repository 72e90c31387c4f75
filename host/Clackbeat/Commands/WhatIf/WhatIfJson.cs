using System.Text.Json.Nodes;
using Clackbeat.Frame;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Export;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Facts;
using Clackbeat.Twin.Changes;
using Clackbeat.Twin.Fitting;
using Clackbeat.Twin.Model;
using Clackbeat.Words;

namespace Clackbeat.Commands.WhatIf;

/// <summary>A foretold change as JSON, schema <c>clackbeat.what-if/1</c>.</summary>
internal static class WhatIfJson
{
    private const double LitresPerMin = 60_000;
    private const double Litres = 1000;

    /// <summary>Builds the object.</summary>
    public static JsonObject Of(WhatIfAnswer answer) => new()
    {
        ["schema"] = "clackbeat.what-if/1",
        ["site"] = answer.Site.Name,
        ["as_is"] = Of(answer.AsIs, answer.PipeAsIs),
        ["changed"] = Of(answer.Changed[0].Ram, answer.Changed[0].Pipe),
        ["twin"] = TwinOf(answer),
        ["moved"] = new JsonArray([.. answer.Moved.Select(Of)]),
    };

    /// <summary>Builds the object of a range: "curve" in place of "changed", each setting with its factor over what it is now.</summary>
    public static JsonObject Curve(WhatIfAnswer answer) => new()
    {
        ["schema"] = "clackbeat.what-if/1",
        ["site"] = answer.Site.Name,
        ["as_is"] = Of(answer.AsIs, answer.PipeAsIs),
        ["curve"] = new JsonArray([.. answer.Changed.Select(c =>
        {
            JsonObject point = Of(c.Ram, c.Pipe);
            point.Insert(0, "setting", c.Step.Setting);
            point.Insert(1, "factor", JsonOut.Number(c.Step.Factor, 4));
            return point;
        })]),
        ["twin"] = TwinOf(answer),
        ["moved"] = new JsonArray([.. answer.Moved.Select(Of)]),
    };

    private static JsonObject Of(Prediction ram, PipeCheck pipe)
    {
        JsonObject json = Figures(ram, pipe);
        if (ram.VesselSwingPa is { } swing)
        {
            json["vessel_swing_kpa"] = Of(swing, 1e-3);
        }

        return json;
    }

    private static JsonObject Figures(Prediction ram, PipeCheck pipe) => new()
    {
        ["rate_per_min"] = Of(ram.RatePerMin, 1),
        ["delivered_l_per_min"] = Of(ram.DeliveredM3PerS, LitresPerMin),
        ["waste_l_per_min"] = Of(ram.WasteM3PerS, LitresPerMin),
        ["peak_kpa"] = Of(ram.PeakPa, 1e-3),
        ["efficiency"] = Of(ram.Efficiency, 1),
        ["will_beat"] = JsonOut.Number(ram.WillBeat, 3),
        ["pipe"] = ContractNames.Of(pipe.PressureVerdict),
    };

    private static JsonObject? Of(Figure? figure, double unit)
    {
        if (figure is not { } f)
        {
            return null;
        }

        var json = new JsonObject { ["value"] = JsonOut.Number(unit * f.Value, 4), ["u"] = JsonOut.Number(unit * f.U, 4) };
        if (f.IsUpperBound)
        {
            json["bound"] = "upper";
        }

        return json;
    }

    private static JsonObject Of(Fact fact) => new()
    {
        ["code"] = fact.Code,
        ["values"] = new JsonObject([.. fact.Values.Select(v => KeyValuePair.Create(v.Name, JsonOut.Number(v.Number, 4)))]),
        ["text"] = Catalogue.English.Say(fact),
    };

    private static JsonObject TwinOf(WhatIfAnswer answer)
    {
        JsonObject json = Of(answer.Twin);
        if (answer.Air is { } air)
        {
            json["air"] = new JsonObject
            {
                ["value_l"] = JsonOut.Number(Litres * air.M3, 4),
                ["low_l"] = JsonOut.Number(Litres * air.LowM3, 4),
                ["high_l"] = air.IsOpen ? null : JsonOut.Number(Litres * air.HighM3, 4),
                ["full_l"] = JsonOut.Number(Litres * air.FullM3, 4),
                ["seen"] = JsonOut.Number(air.Seen, 2),
            };
        }

        return json;
    }

    private static JsonObject Of(FittedTwin twin) => new()
    {
        ["fits"] = twin.Fits,
        ["misfit"] = JsonOut.Number(twin.Misfit, 1),
        ["parameters"] = new JsonArray([.. Enum.GetValues<TwinParameter>().Select(p => new JsonObject
        {
            ["name"] = System.Text.Json.JsonNamingPolicy.SnakeCaseLower.ConvertName(p.ToString()),
            ["value"] = JsonOut.Number(twin.Values[(int)p], 4),
            ["u"] = JsonOut.Number(2 * Math.Sqrt(Math.Max(0, twin.Covariance[(int)p, (int)p])), 4),
            ["seen"] = JsonOut.Number(twin.Seen(p), 2),
        })]),
    };
}
