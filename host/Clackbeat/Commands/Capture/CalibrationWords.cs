using Clackbeat.Sensing.Calibrating;
using Clackbeat.Words;

namespace Clackbeat.Commands.Capture;

/// <summary>How a calibration was done, in a few words.</summary>
internal static class CalibrationWords
{
    /// <summary>Its points by what was held against the sensor.</summary>
    /// <param name="calibration">The calibration.</param>
    /// <param name="catalogue">The language; null takes the one that is spoken.</param>
    public static string Method(Calibration calibration, Catalogue? catalogue = null) => string.Join(", ", calibration.Points
        .GroupBy(p => p.Point.Reference).OrderBy(g => g.Key)
        .Select(g => Of(catalogue ?? Catalogue.Current, g.Key, g.Count())));

    private static string Of(Catalogue catalogue, ReferenceKind kind, int count) => kind switch
    {
        ReferenceKind.Air => catalogue.Say("calibrate.air"),
        ReferenceKind.Column => catalogue.Say("calibrate.columns", ("count", count)),
        ReferenceKind.Gauge => catalogue.Say("calibrate.gauges", ("count", count)),
        _ => catalogue.Say("calibrate.meters", ("count", count)),
    };
}
