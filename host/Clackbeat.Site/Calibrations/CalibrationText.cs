using System.Globalization;
using System.Text;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Sensing.Conversion;

namespace Clackbeat.Site.Calibrations;

/// <summary>Writes a calibration as TOML that a person can read and <see cref="CalibrationFile"/> reads back bit for bit.</summary>
public static class CalibrationText
{
    /// <summary>Name and version of the format.</summary>
    public const string Format = "clackbeat.calibration/1";

    private const int RowsOfUncertainty = 10;

    /// <summary>The text of the file.</summary>
    public static string Of(Calibration calibration)
    {
        StringBuilder text = new();
        Line(text, "# Calibration of a pressure sensor with its logger, written by clackbeat calibrate. Keep it with the recordings.");
        Line(text, "# Pressures are gauge. The curve is added to what the data sheets in [chain] give, in shares of the span:");
        Line(text, "# zero + span u + bow 4u(1-u) + sway 6*sqrt(3) u(1-u)(1-2u), with u from 0 to 1 over the range.");
        Line(text, $"format = {Quoted(Format)}");
        Line(text, $"date = {Quoted(calibration.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture))}");
        Line(text, $"method = {Quoted(MethodOf(calibration.Points))}");
        Line(text, $"warnings = [{string.Join(", ", calibration.Warnings.Select(Remark))}]");
        Chain(text, calibration.Path);
        Curve(text, calibration.Curve);
        foreach (PointResult point in calibration.Points)
        {
            Point(text, point);
        }

        Table(text, calibration);
        return text.ToString();
    }

    private static string MethodOf(IReadOnlyList<PointResult> points) => string.Join(", ", points
        .GroupBy(p => p.Point.Reference).OrderBy(g => g.Key)
        .Select(g => FormattableString.Invariant($"{g.Count()} {g.Key.ToString().ToLowerInvariant()}")));

    private static string Remark(CalibrationRemark remark) => string.Create(
        CultureInfo.InvariantCulture,
        $"{{ code = {Quoted(remark.Code.ToString())}, text = {Quoted(remark.Text)}, value = {remark.Value:R}, limit = {remark.Limit:R}, top = {remark.Top:R} }}");

    private static void Chain(StringBuilder text, SignalPath path)
    {
        Line(text, "\n[chain]");
        Write(text, "range_low_pa", path.RangeLowPa);
        Write(text, "range_high_pa", path.RangeHighPa);
        Line(text, $"output = {Quoted(path.Output.Kind.ToString().ToLowerInvariant())}");
        Write(text, "output_low", path.Output.Low);
        Write(text, "output_high", path.Output.High);
        Line(text, $"follows_supply = {(path.Output.FollowsSupply ? "true" : "false")}");
        Write(text, "supply_v", path.SupplyV);
        Write(text, "signal_gain", path.SignalGain);
        Write(text, "supply_gain", path.SupplyGain);
        Write(text, "converter_zero_v", path.Converter.ZeroV);
        Write(text, "converter_full_scale_v", path.Converter.FullScaleV);
        Write(text, "converter_max_counts", path.Converter.MaxCounts);
        Write(text, "usable_low_v", path.Converter.UsableLowV);
        Write(text, "usable_high_v", path.Converter.UsableHighV);
    }

    private static void Curve(StringBuilder text, CalibrationCurve curve)
    {
        Line(text, "\n[curve]");
        Write(text, "range_low_pa", curve.RangeLowPa);
        Write(text, "span_pa", curve.SpanPa);
        Line(text, $"zero_span_bow_sway = {Row(curve.Coefficients)}");
        Line(text, "covariance = [");
        foreach (IReadOnlyList<double> row in curve.Covariance)
        {
            Line(text, $"  {Row(row)},");
        }

        Line(text, "]");
        Write(text, "ripple_share", curve.RippleShare);
        Write(text, "supply_share", curve.SupplyShare);
    }

    private static void Point(StringBuilder text, PointResult result)
    {
        CalibrationPoint point = result.Point;
        Line(text, "\n[[point]]");
        Line(text, $"reference = {Quoted(point.Reference.ToString().ToLowerInvariant())}");
        Line(text, $"text = {Quoted(point.Text)}");
        Write(text, "pressure_pa", point.PressurePa);
        Write(text, "own_uncertainty_pa", point.OwnUncertaintyPa);
        Write(text, "common_uncertainty_pa", point.CommonUncertaintyPa);
        Write(text, "counts", point.Counts);
        Write(text, "counts_uncertainty", point.CountsUncertainty);
        Write(text, "counts_scatter", point.CountsScatter);
        Write(text, "samples", point.Samples);
        Write(text, "supply_counts", point.SupplyCounts);
        Write(text, "nominal_pa", result.NominalPa);
        Write(text, "residual_pa", result.ResidualPa);
        Write(text, "from_others_pa", result.FromOthersPa);
        Write(text, "from_others_uncertainty_pa", result.FromOthersUncertaintyPa);
    }

    private static void Table(StringBuilder text, Calibration calibration)
    {
        Line(text, "\n# What the curve makes of the nominal pressure, with its expanded uncertainty (k = 2) [kPa]:");
        for (int i = 0; i <= RowsOfUncertainty; i++)
        {
            double nominal = calibration.Path.RangeLowPa + (calibration.Path.SpanPa * i / RowsOfUncertainty);
            Line(text, string.Create(
                CultureInfo.InvariantCulture,
                $"#   {nominal / 1000,10:0.00} -> {calibration.Curve.PressurePaAt(nominal) / 1000,10:0.00} ± {calibration.Curve.UncertaintyPaAt(nominal) / 1000:0.00}"));
        }
    }

    private static void Write(StringBuilder text, string key, double? value)
    {
        if (value is double number)
        {
            Line(text, $"{key} = {Number(number)}");
        }
    }

    private static string Row(IReadOnlyList<double> values) => $"[{string.Join(", ", values.Select(Number))}]";

    // The shortest text that reads back as the same number; TOML wants a point or an exponent in a float.
    private static string Number(double value)
    {
        string shortest = value.ToString("R", CultureInfo.InvariantCulture);
        return shortest.AsSpan().ContainsAny('.', 'E') ? shortest : $"{shortest}.0";
    }

    private static string Quoted(string words) => $"\"{string.Concat(words.Select(Escaped))}\"";

    private static string Escaped(char letter) => letter switch
    {
        '"' => "\\\"",
        '\\' => "\\\\",
        < ' ' or '\u007F' => $"\\u{(int)letter:X4}",
        _ => letter.ToString(),
    };

    private static void Line(StringBuilder text, string line) => text.Append(line).Append('\n');
}
