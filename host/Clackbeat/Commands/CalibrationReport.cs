using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Commands;

/// <summary>A calibration as a person reads it.</summary>
internal static class CalibrationReport
{
    private static readonly double[] Places = [0, 0.05, 0.25, 0.5, 0.75, 1];

    /// <summary>Writes points with residuals, the curve, the uncertainty over the range, and what is weak.</summary>
    public static void Write(Session session, Calibration calibration, Units units)
    {
        Layout.Paragraph(
            session,
            string.Create(CultureInfo.InvariantCulture, $"Calibration of {calibration.Date:yyyy-MM-dd}: {calibration.Method}"));
        session.Out.WriteLine();
        string unit = UnitOf(units);
        session.Out.WriteLine("Points, with how far each lies from what the others say (! beyond its ±)");
        Layout.Table(
            session,
            ["Reference", "Counts", "Supply", $"True {unit}", "Calibrated", "Off by", "Others ±"],
            calibration.Points.Select(p => Row(p, units)));
        session.Out.WriteLine();
        session.Out.WriteLine("Pressure over the range (± holds 19 times out of 20, steady pressure)");
        Layout.Table(session, [$"By data sheet {unit}", "Calibrated", "±", "% of range"], Places.Select(p => Uncertainty(calibration, p, units)));
        session.Out.WriteLine();
        Layout.Pairs(session, Curve(calibration.Curve));
        if (calibration.Warnings.Count > 0)
        {
            session.Out.WriteLine();
            session.Out.WriteLine("Worth a thought");
            Layout.Bullets(session, calibration.Warnings);
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
            ? $"{Fine(off, units)} ± {Fine(result.FromOthersUncertaintyPa!.Value, units)}{(result.IsPoor ? " !" : "")}"
            : "",
    ];

    private static string[] Uncertainty(Calibration calibration, double place, Units units)
    {
        double nominal = calibration.Path.RangeLowPa + (place * calibration.Path.SpanPa);
        double uncertainty = calibration.Curve.UncertaintyPaAt(nominal);
        return
        [
            Fine(nominal, units),
            Fine(calibration.Curve.PressurePaAt(nominal), units),
            Fine(uncertainty, units),
            (100 * uncertainty / calibration.Path.SpanPa).ToString("0.00", CultureInfo.InvariantCulture),
        ];
    }

    private static IEnumerable<(string, string)> Curve(CalibrationCurve curve)
    {
        string[] names = ["Zero", "Span", "Bow", "Sway"];
        for (int i = 0; i < names.Length; i++)
        {
            double uncertainty = 2 * Math.Sqrt(curve.Covariance[i][i]);
            yield return (names[i], string.Create(
                CultureInfo.InvariantCulture,
                $"{100 * curve.Coefficients[i]:+0.00;-0.00} ± {100 * uncertainty:0.00} % of the span"));
        }
    }

    // Points differ in the third decimal of a bar.
    private static string Fine(double pressurePa, Units units)
    {
        double size = QuantityText.Unit(QuantityKind.Pressure, UnitOf(units)).Scale;
        return string.Create(CultureInfo.InvariantCulture, $"{pressurePa / size:0.00}");
    }

    private static string UnitOf(Units units) => units == Units.Us ? "psi" : "kPa";
}
