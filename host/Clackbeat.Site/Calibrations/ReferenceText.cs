using System.Text.RegularExpressions;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Site.Calibrations;

/// <summary>How well the means of a calibration are known.</summary>
public sealed record ReferenceMeans
{
    /// <summary>How far a column's height may be off, either way (k = 2) [m].</summary>
    public double HeightErrorM { get; init; } = 0.01;

    /// <summary>Water temperature in a column [°C].</summary>
    public double WaterTemperatureC { get; init; } = 12;

    /// <summary>Local gravity [m/s²]; null takes the standard one and widens by what places differ.</summary>
    public double? GravityMPerS2 { get; init; }

    /// <summary>Limit of error of the pressure gauge [Pa]; null where none was named.</summary>
    public double? GaugeErrorPa { get; init; }

    /// <summary>Limit of error of the meter, as a share of its reading.</summary>
    public double MeterErrorShare { get; init; } = 0.005;
}

/// <summary>Reads a reference as a person writes it: "air", "2 m", "4.2 bar", "2.5 V of 5.02 V", "12 mA".</summary>
public static partial class ReferenceText
{
    // Signal and supply by the same meter: its gain cancels, digits and linearity stay. Common practice, no standard.
    private const double ShareLeftInRatio = 0.2;

    /// <summary>Makes a point of a reference and a reading.</summary>
    /// <param name="text">The reference.</param>
    /// <param name="reading">Sets the counts of the point.</param>
    /// <param name="path">The chain.</param>
    /// <param name="means">How well the means are known.</param>
    /// <exception cref="InputException">The reference is none.</exception>
    public static CalibrationPoint Point(
        string text, Func<CalibrationPoint, CalibrationPoint> reading, SignalPath path, ReferenceMeans means)
    {
        (ReferenceKind kind, (double PressurePa, double OwnPa, double CommonPa) known) = Read(text.Trim(), path, means);
        return reading(new CalibrationPoint
        {
            Reference = kind,
            Text = text.Trim(),
            PressurePa = known.PressurePa,
            OwnUncertaintyPa = known.OwnPa,
            CommonUncertaintyPa = known.CommonPa,
            Counts = 0,
        });
    }

    private static (ReferenceKind Kind, (double PressurePa, double OwnPa, double CommonPa) Known) Read(
        string text, SignalPath path, ReferenceMeans means)
    {
        if (text.Equals("air", StringComparison.OrdinalIgnoreCase))
        {
            return (ReferenceKind.Air, References.Air());
        }

        if (QuantityText.TryParse(QuantityKind.Length, text, out double heightM, out _))
        {
            return heightM == 0
                ? (ReferenceKind.Air, References.Air())
                : (ReferenceKind.Column, References.Column(heightM, means.HeightErrorM, means.WaterTemperatureC, means.GravityMPerS2));
        }

        if (QuantityText.TryParse(QuantityKind.Pressure, text, out double pressurePa, out _))
        {
            double limit = means.GaugeErrorPa ?? throw InputException.Of("calibration.gauge-error", ("text", text));
            return (ReferenceKind.Gauge, References.Gauge(pressurePa, limit));
        }

        Match parts = OutputOfSupply().Match(text);
        string output = parts.Success ? parts.Groups["output"].Value : text;
        QuantityKind kind = path.Output.Kind == SignalKind.Voltage ? QuantityKind.Voltage : QuantityKind.Current;
        if (!QuantityText.TryParse(kind, output, out double value, out _))
        {
            throw InputException.Of("calibration.no-reference", ("text", text), ("example", kind == QuantityKind.Voltage ? "2.50 V of 5.02 V" : "12 mA"));
        }

        double? supplyV = parts.Success ? QuantityText.Parse(QuantityKind.Voltage, parts.Groups["supply"].Value) : null;
        if (supplyV is null && path.Output.FollowsSupply)
        {
            throw InputException.Of("calibration.with-supply", ("text", text));
        }

        double meterShare = supplyV is null ? means.MeterErrorShare : ShareLeftInRatio * means.MeterErrorShare;
        return (ReferenceKind.Electric, References.Electric(path, value, supplyV, meterShare));
    }

    [GeneratedRegex(@"^(?<output>.+?)\s+of\s+(?<supply>.+)$", RegexOptions.ExplicitCapture | RegexOptions.IgnoreCase)]
    private static partial Regex OutputOfSupply();
}
