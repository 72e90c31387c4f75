using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Signal.Figures;

/// <summary>
/// What the sensor itself adds to the uncertainty of a pressure, as standard uncertainties. A data sheet's limit of error holds for any
/// sensor of its kind: a rectangular distribution (JCGM 100:2008 §4.3.7). What a keeper or a calibration states is expanded, k = 2.
/// </summary>
internal static class SensorAccuracy
{
    /// <summary>Share of the span taken where the site file states no accuracy: the usual class of industrial transmitters.</summary>
    public const double UsualShareOfSpan = SiteSensing.UsualAccuracyShareOfSpan;

    /// <summary>Response time taken where the site file states none [s]: what makers' sheets of such transmitters promise (common practice).</summary>
    public const double UsualResponseS = 1e-3;

    /// <summary>Of a reading [Pa]: by the calibration file, by the keeper's own figures for slope and zero, or by the data sheet.</summary>
    /// <param name="sensor">The sensor.</param>
    /// <param name="pressurePa">The reading [Pa gauge].</param>
    public static double StandardPa(Sensor sensor, double pressurePa) => sensor switch
    {
        { Calibration.Curve: var curve } => 0.5 * curve.UncertaintyPaAt(curve.NominalPaFor(pressurePa)),
        { GainUncertainty: null, OffsetUncertaintyPa: null } => SheetPa(sensor),
        _ => Math.Sqrt(Math.Pow(ZeroPa(sensor), 2) + Math.Pow(Gain(sensor) * pressurePa, 2)),
    };

    /// <summary>Of the zero [Pa].</summary>
    /// <param name="sensor">The sensor.</param>
    public static double ZeroPa(Sensor sensor) => sensor switch
    {
        { Calibration: not null } => StandardPa(sensor, 0),
        { OffsetUncertaintyPa: { } offsetPa } => 0.5 * offsetPa,
        _ => SheetPa(sensor),
    };

    /// <summary>Of the slope, as a share of the reading.</summary>
    /// <param name="sensor">The sensor.</param>
    public static double Gain(Sensor sensor) => sensor switch
    {
        { Calibration: not null } => StandardPa(sensor, sensor.RangeHighPa) / SpanPa(sensor),
        { GainUncertainty: { } gain } => 0.5 * gain,
        _ => SheetPa(sensor) / SpanPa(sensor),
    };

    private static double SheetPa(Sensor sensor) => Expanded.OfBound((sensor.AccuracyShareOfSpan ?? UsualShareOfSpan) * SpanPa(sensor));

    private static double SpanPa(Sensor sensor) => sensor.RangeHighPa - sensor.RangeLowPa;
}
