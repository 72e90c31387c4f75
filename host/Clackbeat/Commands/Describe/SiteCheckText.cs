using Clackbeat.Frame;
using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Ram;
using Clackbeat.Sensing.Choosing;
using Clackbeat.Site.Check;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Commands.Describe;

/// <summary>The check of a site file as a person reads it.</summary>
internal static class SiteCheckText
{
    /// <summary>Writes expected figures, advice and left-out keys.</summary>
    public static void Write(Session session, SiteCheck check)
    {
        Units units = check.Site!.Units;
        session.Out.WriteLine(check.Site.Name);
        if (check.Site.Note is { } note)
        {
            Layout.Paragraph(session, note);
        }

        if (check.Expected is { } expected)
        {
            Heading(session, Phrases.Say("check.what-expect-ram"));
            Layout.Pairs(session, Figures(expected, units));
            session.Out.WriteLine();
            Layout.Paragraph(
                session,
                Phrases.Say("check.these-ranges-common-practice-ram"));
        }

        if (check.Advice.Count > 0)
        {
            Heading(session, Phrases.Say("check.worth-thought"));
            Layout.Bullets(session, Catalogue.Current.Say(check.Advice));
        }

        if (check.LeftOut.Count > 0)
        {
            Heading(session, Phrases.Say("check.left-out-file-what-weakens"));
            Layout.Pairs(session, check.LeftOut.Select(l => (string.Join("\n", l.Keys), l.Weakens)));
        }
    }

    private static IEnumerable<(string, string)> Figures(ExpectedFigures expected, Units units)
    {
        string Between(QuantityKind kind, Band band) => Phrases.FormatRange(kind, band.Low, band.High, units);
        ExpectedRam ram = expected.Ram;
        yield return (Phrases.Say("check.beats"), Phrases.Say("check.minute", ("low", ram.BeatsPerMin.Low), ("high", ram.BeatsPerMin.High)));
        yield return (Phrases.Say("check.velocity-closure"), Between(QuantityKind.Velocity, ram.ClosingVelocityMPerS));
        yield return (Phrases.Say("check.least-delivers"), Phrases.Format(QuantityKind.Velocity, ram.LeastClosingVelocityMPerS, units, 2));
        yield return (Phrases.Say("check.delivered"), Between(QuantityKind.Flow, ram.DeliveredM3PerS));
        yield return (Phrases.Say("check.waste"), Between(QuantityKind.Flow, ram.WasteM3PerS));
        yield return (Phrases.Say("check.efficiency-daubuisson"), Between(QuantityKind.Share, ram.DAubuisson));
        yield return (Phrases.Say("check.pressure-rest"), Phrases.Format(QuantityKind.Pressure, expected.StaticPa, units));
        yield return (Phrases.Say("check.pressure-delivery"), Phrases.Format(QuantityKind.Pressure, expected.DeliveryPa, units));
        yield return (Phrases.Say("check.ceiling-peaks"), Between(QuantityKind.Pressure, ram.PeakCeilingPa));
        if (expected.Sensing.RangeToBuyPa is { } range)
        {
            yield return (Phrases.Say("check.sensor-buy"), SensorToBuy(range, ram.BeatsPerMin.High, units));
        }

        yield return (Phrases.Say("check.wave-speed"), Phrases.Format(QuantityKind.Velocity, expected.Hydraulics.WaveSpeedMPerS, units));
        yield return (Phrases.Say("check.pipe-period-2la"), Phrases.Format(QuantityKind.Duration, ram.PipePeriodS, units));
        yield return (Phrases.Say("check.sampling-rate"), Phrases.Say("check.more", ("rate", Phrases.Format(QuantityKind.Frequency, expected.LeastSamplingRateHz, units))));
        SensingFigures sensing = expected.Sensing;
        yield return (Phrases.Say("check.pressures-read-truly"), Between(QuantityKind.Pressure, sensing.UsablePa));
        yield return (Phrases.Say("check.one-count"), Phrases.Format(QuantityKind.Pressure, sensing.StepPa, units, 2));
        yield return (Phrases.Say("check.filters-corner"), Phrases.Format(QuantityKind.Frequency, sensing.Filter.CornerHz, units, 2));
        if (sensing.TapLineHz is { } tapLine)
        {
            yield return (Phrases.Say("check.tap-line-rings"), Phrases.Format(QuantityKind.Frequency, tapLine, units, 2));
        }

        if (sensing.SensorSettleMilliseconds is { } settle)
        {
            yield return (Phrases.Say("check.sensors-settling"), $"SensorSettleMilliseconds = {settle} in Wiring.cs");
        }

        if (sensing.BatteryCutOffCounts is { } cutOff)
        {
            yield return (Phrases.Say("check.batterys-cutoff"), $"BatteryCutOffCounts = {cutOff} in Wiring.cs");
        }

        if (sensing.BatteryDays is { } days)
        {
            yield return (Phrases.Say("check.battery-lasts"), Phrases.Say("check.days", ("days", days)));
        }
    }

    private static string SensorToBuy(double rangePa, double beatsPerMin, Units units) =>
        Phrases.Say("check.below-0-up-more", ("kind", rangePa < SensorChoice.VentedBelowPa ? Phrases.Say("check.vented-gauge") : Phrases.Say("check.gauge")), ("top", Phrases.Format(QuantityKind.Pressure, rangePa, units)))
        + Phrases.Say("check.life-million-pressure-cycles-lasts", ("millions", Math.Ceiling(SensorChoice.CyclesPerYear(beatsPerMin) / 1e6)));

    private static void Heading(Session session, string words)
    {
        session.Out.WriteLine();
        session.Out.WriteLine(words);
    }
}
