using Clackbeat.Site;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Analysis;

/// <summary>What the sensor itself adds to the uncertainty of a pressure.</summary>
internal static class SensorAccuracy
{
    /// <summary>Share of the span taken where the site file states no accuracy: the usual class of industrial transmitters.</summary>
    public const double UsualShareOfSpan = SiteSensing.UsualAccuracyShareOfSpan;

    /// <summary>Response time taken where the site file states none [s]: what makers' sheets of such transmitters promise (common practice).</summary>
    public const double UsualResponseS = 1e-3;

    /// <summary>Expanded uncertainty of a reading [Pa].</summary>
    public static double ExpandedPa(Sensor sensor) =>
        (sensor.AccuracyShareOfSpan ?? UsualShareOfSpan) * (sensor.RangeHighPa - sensor.RangeLowPa);
}
