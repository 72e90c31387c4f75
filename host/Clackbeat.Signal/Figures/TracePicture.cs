namespace Clackbeat.Signal.Figures;

/// <summary>What plots need of a record, bounded in size whatever the record's length. Times [s], gauge pressures [Pa].</summary>
public sealed record TracePicture
{
    /// <summary>The whole record as lowest and highest sample of each equal stretch of time; NaN where it has no sample.</summary>
    public required Envelope Whole { get; init; }

    /// <summary>A few beats sample by sample, unreduced.</summary>
    public required TraceCurve Excerpt { get; init; }

    /// <summary>Single beats, time 0 at the closure, from somewhat before it to the next closure; evenly spread over the record.</summary>
    public required IReadOnlyList<TraceCurve> Overlay { get; init; }
}

/// <summary>Lowest and highest sample of equal stretches of time.</summary>
/// <param name="StartS">Start of the first stretch [s].</param>
/// <param name="StepS">Length of a stretch [s].</param>
/// <param name="LowPa">Lowest samples [Pa]; NaN is a gap.</param>
/// <param name="HighPa">Highest samples [Pa]; NaN is a gap.</param>
public sealed record Envelope(double StartS, double StepS, IReadOnlyList<double> LowPa, IReadOnlyList<double> HighPa);

/// <summary>Samples as they came; both lists have the same length.</summary>
/// <param name="TimeS">Times [s], rising.</param>
/// <param name="PressurePa">Gauge pressures [Pa].</param>
public sealed record TraceCurve(IReadOnlyList<double> TimeS, IReadOnlyList<double> PressurePa);
