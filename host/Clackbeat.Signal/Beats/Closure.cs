namespace Clackbeat.Signal.Beats;

/// <summary>
/// A closure the detector has accepted and what followed it: the samples from the first one above the threshold to the
/// last one before a real open phase began.
/// </summary>
internal sealed class Closure(long first, long openSince)
{
    /// <summary>Number of the first sample above the threshold.</summary>
    public long First { get; } = first;

    /// <summary>Number of the sample after which the pressure stayed low before this closure.</summary>
    public long OpenSince { get; } = openSince;

    /// <summary>Number of the last sample above the threshold so far.</summary>
    public long LastAbove { get; set; } = first;

    /// <summary>A gap was met since this closure.</summary>
    public bool HasGap { get; set; }

    /// <summary>The shutting instant [s], once delivery has been seen.</summary>
    public double? TimeS { get; set; }

    /// <summary>Median of the samples above the threshold [Pa], once delivery has been seen.</summary>
    public double PlateauPa { get; set; }
}
