using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Site.Calibrations;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Commands.Capture;

/// <summary>A calibration as a person reads it.</summary>
internal static class CalibrationReport
{
    private static readonly double[] Places = [0, 0.05, 0.25, 0.5, 0.75, 1];

    /// <summary>Writes points with residuals, the curve, the uncertainty over the range, and what is weak.</summary>
    public static void Write(Session session, Calibration calibration, Units units)
    {
        Layout.Paragraph(
            session,
            Phrases.Say("calibrate.title", ("date", calibration.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)), ("method", CalibrationWords.Method(calibration))));
        session.Out.WriteLine();
        string unit = UnitOf(units);
        session.Out.WriteLine(Phrases.Say("calibrate.points"));
        Layout.Table(
            session,
            [Phrases.Say("calibrate.reference"), Phrases.Say("calibrate.counts"), Phrases.Say("calibrate.supply"), Phrases.Say("calibrate.true", ("unit", unit)), Phrases.Say("calibrate.calibrated"), Phrases.Say("calibrate.off"), Phrases.Say("calibrate.others")],
            calibration.Points.Select(p => Row(p, units)));
        session.Out.WriteLine();
        session.Out.WriteLine(Phrases.Say("calibrate.over-range"));
        Layout.Table(session, [Phrases.Say("calibrate.by-sheet", ("unit", unit)), Phrases.Say("calibrate.calibrated"), "±", Phrases.Say("calibrate.of-range")], Places.Select(p => Uncertainty(calibration, p, units)));
        session.Out.WriteLine();
        Layout.Pairs(session, Curve(calibration.Curve));
        if (calibration.Warnings.Count > 0)
        {
            session.Out.WriteLine();
            session.Out.WriteLine(Phrases.Say("check.worth-thought"));
            Layout.Bullets(session, Catalogue.Current.Say(calibration.Warnings.Select(w => CalibrationFacts.Of(w, units))));
        }
    }

    private static string[] Row(PointResult result, Units units) =>
    [
        result.Point.Text,
        result.Point.Counts.ToString("0.0", CultureInfo.InvariantCulture),
        result.Point.SupplyCounts?.ToString("0.0", CultureInfo.InvariantCulture) ?? "",
        Fine(result.Point.PressurePa, units),
        Fine(result.Point.PressurePa - result.ResidualPa, units),
        Fine(result.ResidualPa, units),
        result.FromOthersPa is { } off
            ? $"{string.Join(" ± ", Ended(off, result.FromOthersUncertaintyPa!.Value, units))}{(result.IsPoor ? " !" : "")}"
            : "",
    ];

    private static string[] Uncertainty(Calibration calibration, double place, Units units)
    {
        double nominal = calibration.Path.RangeLowPa + (place * calibration.Path.SpanPa);
        double uncertainty = calibration.Curve.UncertaintyPaAt(nominal);
        return
        [
            Fine(nominal, units),
            .. Ended(calibration.Curve.PressurePaAt(nominal), uncertainty, units),
            Phrases.Number(Rounding.Margin(100 * uncertainty / calibration.Path.SpanPa, Rounding.Places(0, 100 * uncertainty / calibration.Path.SpanPa))),
        ];
    }

    private static IEnumerable<(string, string)> Curve(CalibrationCurve curve)
    {
        string[] names = [Phrases.Say("calibrate.zero"), Phrases.Say("calibrate.span"), Phrases.Say("calibrate.bow"), Phrases.Say("calibrate.sway")];
        for (int i = 0; i < names.Length; i++)
        {
            double uncertainty = 2 * Math.Sqrt(curve.Covariance[i][i]);
            yield return (names[i], Phrases.Say("calibrate.coefficient", ("value", 100 * curve.Coefficients[i]), ("uncertainty", 100 * uncertainty)));
        }
    }

    // Points differ in the third decimal of a bar.
    private static string Fine(double pressurePa, Units units)
    {
        double size = QuantityText.Unit(QuantityKind.Pressure, UnitOf(units)).Scale;
        return Phrases.Number(Rounding.Fixed(pressurePa / size, 2));
    }

    // Value and ±, both ended by the rule for all figures.
    private static string[] Ended(double pressurePa, double uncertaintyPa, Units units)
    {
        double size = QuantityText.Unit(QuantityKind.Pressure, UnitOf(units)).Scale;
        int places = Rounding.Places(pressurePa / size, uncertaintyPa / size);
        return [Phrases.Number(Rounding.Fixed(pressurePa / size, places)), Phrases.Number(Rounding.Margin(uncertaintyPa / size, places))];
    }

    private static string UnitOf(Units units) => units == Units.Us ? "psi" : "kPa";
}
