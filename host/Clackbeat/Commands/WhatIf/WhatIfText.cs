using Clackbeat.Frame;
using Clackbeat.Report.Twins;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Quantities;
using Clackbeat.Twin.Air;
using Clackbeat.Twin.Changes;
using Clackbeat.Words;

namespace Clackbeat.Commands.WhatIf;

/// <summary>A foretold change as a person reads it.</summary>
internal static class WhatIfText
{
    /// <summary>Writes both columns and what to know beside them.</summary>
    public static void Write(Session session, WhatIfAnswer answer)
    {
        session.Out.WriteLine(answer.Site.Name);
        session.Out.WriteLine();
        Layout.Paragraph(session, Verdict(answer.Changed[0].Ram));
        Layout.Table(session, ["", Phrases.Say("whatif.as-it-is"), Phrases.Say("whatif.changed")], Rows(answer));
        session.Out.WriteLine();
        Layout.Bullets(session, Notes(answer));
    }

    /// <summary>Writes one row a setting of a range, the ram as it is above them.</summary>
    public static void WriteCurve(Session session, WhatIfAnswer answer)
    {
        session.Out.WriteLine(answer.Site.Name);
        session.Out.WriteLine();
        // More or less air hardly changes what runs to waste, but by far how the vessel swings.
        string third = Phrases.Say(answer.Air is null ? "trend.waste" : "whatif.swing");
        Layout.Table(
            session,
            [Phrases.Say("whatif.setting"), Phrases.Say("trend.rate"), Phrases.Say("trend.delivered"), third, Phrases.Say("trend.peak"), Phrases.Say("whatif.beats-on")],
            [Row(Phrases.Say("whatif.as-it-is"), answer.AsIs, answer), .. answer.Changed.Select(c => Row(c.Step.Setting, c.Ram, answer))]);
        session.Out.WriteLine();
        Layout.Bullets(session, Notes(answer));
    }

    private static string[] Row(string setting, Prediction ram, WhatIfAnswer answer) =>
    [
        setting,
        ram.RatePerMin is { } rate ? Phrases.WithMargin(rate.Value, rate.U) : "-",
        Of(QuantityKind.Flow, ram.DeliveredM3PerS, answer.Site.Units),
        answer.Air is null ? Of(QuantityKind.Flow, ram.WasteM3PerS, answer.Site.Units) : Of(QuantityKind.Pressure, ram.VesselSwingPa, answer.Site.Units),
        Of(QuantityKind.Pressure, ram.PeakPa, answer.Site.Units),
        PredictionWords.Odds(ram),
    ];

    private static string Of(QuantityKind kind, Figure? figure, Units units) =>
        figure is { } f ? (f.IsUpperBound ? Phrases.Say("trend.at-most") : "") + Phrases.Format(kind, f.Value, f.U, units) : "-";

    private static string Verdict(Prediction changed) => changed switch
    {
        { RatePerMin: null } => Phrases.Say("whatif.stops", ("beats_share", changed.WillBeat)),
        { WillBeat: < 0.9 } => Phrases.Say("whatif.may-stop", ("beats_share", changed.WillBeat)),
        _ => Phrases.Say("whatif.beats"),
    };

    private static IEnumerable<IReadOnlyList<string>> Rows(WhatIfAnswer answer)
    {
        Units units = answer.Site.Units;
        string Of(QuantityKind kind, Figure? figure) => WhatIfText.Of(kind, figure, units);
        string Rate(Figure? figure) => figure is { } f ? Phrases.WithMargin(f.Value, f.U) : "-";
        (Prediction? now, Prediction? then) = (answer.AsIs, answer.Changed[0].Ram);
        yield return [Phrases.Say("trend.rate"), Rate(now.RatePerMin), Rate(then.RatePerMin)];
        yield return [Phrases.Say("trend.delivered"), Of(QuantityKind.Flow, now.DeliveredM3PerS), Of(QuantityKind.Flow, then.DeliveredM3PerS)];
        yield return [Phrases.Say("trend.waste"), Of(QuantityKind.Flow, now.WasteM3PerS), Of(QuantityKind.Flow, then.WasteM3PerS)];
        yield return [Phrases.Say("trend.peak"), Of(QuantityKind.Pressure, now.PeakPa), Of(QuantityKind.Pressure, then.PeakPa)];
        if (then.VesselSwingPa is not null)
        {
            yield return [Phrases.Say("whatif.swing"), Of(QuantityKind.Pressure, now.VesselSwingPa), Of(QuantityKind.Pressure, then.VesselSwingPa)];
        }

        yield return [Phrases.Say("trend.efficiency"), Of(QuantityKind.Share, now.Efficiency), Of(QuantityKind.Share, then.Efficiency)];
        yield return [Phrases.Say("whatif.pipe"), PredictionWords.Pipe(answer.PipeAsIs.PressureVerdict), PredictionWords.Pipe(answer.Changed[0].Pipe.PressureVerdict)];
    }

    /// <summary>What to know beside the figures.</summary>
    public static IEnumerable<string> Notes(WhatIfAnswer answer)
    {
        yield return Phrases.Say("whatif.how");
        if (answer.Disagreement is { } apart)
        {
            yield return Phrases.Say(
                "whatif.disagree",
                ("record", Phrases.Format(QuantityKind.Flow, apart.Record.Value, apart.Record.U, answer.Site.Units)),
                ("twin", Phrases.Format(QuantityKind.Flow, apart.Twin, answer.Site.Units)));
        }

        if (answer.Twin.IsOfFlap)
        {
            yield return Phrases.Say("whatif.flap");
        }
        else if (!answer.Twin.Fits)
        {
            yield return Phrases.Say("whatif.weak-fit");
        }

        if (answer.Twin.IsOfSoftSpring)
        {
            yield return Phrases.Say("whatif.soft-spring");
        }

        if (answer.Air is { } air)
        {
            string Say(double m3) => Phrases.Format(QuantityKind.Volume, m3, answer.Site.Units);
            yield return air.IsOpen
                ? Phrases.Say("whatif.air-least", ("low", Say(air.LowM3)))
                : Phrases.Say("whatif.air-now", ("air", Say(air.M3)), ("low", Say(air.LowM3)), ("high", Say(air.HighM3)));
            yield return Phrases.Say("whatif.air-what", ("full", Say(air.FullM3)), ("lost", Say(VesselAir.LostShare * air.FullM3)));
        }

        if (answer.Site.WasteValve.StrokeM is null)
        {
            yield return Phrases.Say("whatif.stroke-weak");
        }

        foreach (Fact moved in answer.Moved)
        {
            yield return Catalogue.Current.Say(moved);
        }
    }
}
