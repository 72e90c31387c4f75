using System.Globalization;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Sensing.Conversion;
using Tomlyn.Model;

namespace Clackbeat.Site.Calibrations;

/// <summary>The fields of one table of a calibration file; a missing or senseless one is an <see cref="InputException"/>.</summary>
internal sealed class CalibrationFields(TomlTable table)
{
    public string Text(string key) => Find(key) as string ?? throw Missing(key);

    public Calibration Calibration() => new()
    {
        Date = DateOnly.TryParseExact(Text("date"), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly date)
            ? date
            : throw Missing("date"),
        Warnings = [.. (Find("warnings") as System.Collections.IEnumerable ?? Array.Empty<object>()).Cast<object>().Select(Warning)],
        Path = Table("chain").Path(),
        Curve = Table("curve").Curve(),
        Points = [.. (Find("point") as TomlTableArray ?? []).Select(t => new CalibrationFields(t).Point())],
    };

    // Earlier programs wrote sentences.
    private static CalibrationRemark Warning(object written) => written is TomlTable table
        ? new CalibrationFields(table).Remark()
        : new CalibrationRemark(CalibrationRemarkCode.Stated, written as string ?? "");

    private CalibrationRemark Remark() => new(
        Choice<CalibrationRemarkCode>("code"), Text("text"), Number("value"), Number("limit"), Number("top"));

    private SignalPath Path() => new()
    {
        RangeLowPa = Number("range_low_pa"),
        RangeHighPa = Above("range_high_pa", Number("range_low_pa")),
        Output = new SensorOutput(
            Choice<SignalKind>("output"), Number("output_low"), Above("output_high", Number("output_low")), Flag("follows_supply")),
        SupplyV = Above("supply_v", 0),
        SignalGain = Above("signal_gain", 0),
        SupplyGain = Above("supply_gain", 0),
        Converter = new Converter
        {
            ZeroV = Number("converter_zero_v"),
            FullScaleV = Above("converter_full_scale_v", Number("converter_zero_v")),
            MaxCounts = checked((int)Above("converter_max_counts", 0)),
            UsableLowV = Number("usable_low_v"),
            UsableHighV = Above("usable_high_v", Number("usable_low_v")),
        },
    };

    private CalibrationCurve Curve() => new()
    {
        RangeLowPa = Number("range_low_pa"),
        SpanPa = Above("span_pa", 0),
        Coefficients = Numbers(Find("zero_span_bow_sway"), "zero_span_bow_sway"),
        Covariance = Find("covariance") is TomlArray { Count: CalibrationCurve.Terms } rows
            ? [.. rows.Select(r => Numbers(r, "covariance"))]
            : throw Missing("covariance"),
        RippleShare = Number("ripple_share"),
        SupplyShare = Number("supply_share"),
    };

    private PointResult Point() => new(
        new CalibrationPoint
        {
            Reference = Choice<ReferenceKind>("reference"),
            Text = Text("text"),
            PressurePa = Number("pressure_pa"),
            OwnUncertaintyPa = Number("own_uncertainty_pa"),
            CommonUncertaintyPa = Number("common_uncertainty_pa"),
            Counts = Number("counts"),
            CountsUncertainty = Number("counts_uncertainty"),
            CountsScatter = Optional("counts_scatter"),
            Samples = Optional("samples") is double samples ? checked((int)samples) : null,
            SupplyCounts = Optional("supply_counts"),
        },
        Number("nominal_pa"),
        Number("residual_pa"),
        Optional("from_others_pa"),
        Optional("from_others_uncertainty_pa"));

    private CalibrationFields Table(string key) => new(Find(key) as TomlTable ?? throw Missing(key));

    private bool Flag(string key) => Find(key) as bool? ?? throw Missing(key);

    private double Number(string key) => Optional(key) ?? throw Missing(key);

    private double Above(string key, double low) => Number(key) is double value && value > low
        ? value
        : throw InputException.Of("calibration.not-above", ("key", key), ("low", low));

    private double? Optional(string key) => Find(key) is { } value ? Finite(value, key) : null;

    private T Choice<T>(string key)
        where T : struct, Enum => Enum.TryParse(Text(key), ignoreCase: true, out T value) && Enum.IsDefined(value)
        ? value
        : throw InputException.Of("calibration.not-known", ("key", key), ("value", Text(key)));

    private static IReadOnlyList<double> Numbers(object? value, string key) =>
        value is TomlArray { Count: CalibrationCurve.Terms } array
            ? [.. array.Select(v => Finite(v!, key))]
            : throw Missing(key);

    private static double Finite(object value, string key)
    {
        double number = value is double or long ? Convert.ToDouble(value, CultureInfo.InvariantCulture) : throw Missing(key);
        return double.IsFinite(number) ? number : throw Missing(key);
    }

    private object? Find(string key) => table.TryGetValue(key, out object? value) ? value : null;

    private static InputException Missing(string key) => InputException.Of("calibration.missing", ("key", key));
}
