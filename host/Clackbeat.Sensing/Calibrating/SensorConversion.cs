using Clackbeat.Hydraulics;
using Clackbeat.Sensing.Conversion;

namespace Clackbeat.Sensing.Calibrating;

/// <summary>
/// Counts into gauge pressure: by the data sheets alone, or corrected by a calibration. One set of sums for the virtual
/// sensor, recordings and calibrations.
/// </summary>
public sealed class SensorConversion
{
    private SensorConversion(SignalPath path, Calibration? calibration)
    {
        Path = path;
        Calibration = calibration;
    }

    /// <summary>Sensor, conditioning and converter by their data sheets.</summary>
    public SignalPath Path { get; }

    /// <summary>The calibration; null for a nominal conversion.</summary>
    public Calibration? Calibration { get; }

    /// <summary>A conversion by the data sheets alone.</summary>
    public static SensorConversion Nominal(SignalPath path) => new(path, null);

    /// <summary>A conversion by a calibration, which carries the path it was made with.</summary>
    public static SensorConversion Calibrated(Calibration calibration) => new(calibration.Path, calibration);

    /// <summary>Gauge pressure of a sample [Pa].</summary>
    /// <param name="counts">Counts of the signal.</param>
    /// <param name="supplyCounts">Counts of the sensor's supply at that moment; null where it isn't measured.</param>
    public double PressurePaAt(double counts, double? supplyCounts = null)
    {
        double nominalPa = Path.PressurePaAt(counts, supplyCounts);
        return Calibration is null ? nominalPa : Calibration.Curve.PressurePaAt(nominalPa);
    }

    /// <summary>Counts that a pressure makes, unrounded and unbounded: the way back of <see cref="PressurePaAt"/>.</summary>
    /// <param name="pressurePa">Pressure [Pa gauge].</param>
    /// <param name="supplyV">The supply at that moment [V]; null takes the nominal one.</param>
    public double CountsAt(double pressurePa, double? supplyV = null) =>
        Path.CountsAt(Calibration is null ? pressurePa : Calibration.Curve.NominalPaFor(pressurePa), supplyV);

    /// <summary>
    /// Expanded uncertainty (k = 2) of a steady pressure at these counts [Pa]; null for a nominal conversion, whose
    /// uncertainty is the data sheets' matter.
    /// </summary>
    public double? UncertaintyPaAt(double counts, double? supplyCounts = null) =>
        Calibration?.Curve.UncertaintyPaAt(Path.PressurePaAt(counts, supplyCounts));

    /// <summary>A sample at an end of the converter, where the true pressure may be anything beyond.</summary>
    public bool IsClipped(int counts) => counts <= 0 || counts >= Path.Converter.MaxCounts;

    /// <summary>Pressures between which samples can be trusted [Pa gauge].</summary>
    public Band UsablePa => Calibration is null
        ? Path.UsablePa
        : new Band(Calibration.Curve.PressurePaAt(Path.UsablePa.Low), Calibration.Curve.PressurePaAt(Path.UsablePa.High));
}
