namespace Clackbeat.Signal.Beats;

/// <summary>
/// One whole beat, from one closure of the waste valve to the next. Times are seconds on the trace's own axis,
/// pressures gauge pascals as the sensor reported them.
/// </summary>
public sealed record Beat
{
    /// <summary>Number within the record, from 0.</summary>
    public required int Index { get; init; }

    /// <summary>Instant the waste valve shuts [s].</summary>
    public required double ClosureS { get; init; }

    /// <summary>Instant of the following closure [s].</summary>
    public required double NextClosureS { get; init; }

    /// <summary>End of the delivery plateau: the body pressure starts its fall [s].</summary>
    public required double DeliveryEndS { get; init; }

    /// <summary>Start of the open phase: the waste valve is open again and the column speeds up [s].</summary>
    public required double OpenStartS { get; init; }

    /// <summary>Largest sample [Pa].</summary>
    public required double PeakPa { get; init; }

    /// <summary>Estimated peak between the samples [Pa], and its expanded uncertainty.</summary>
    public required double PeakEstimatePa { get; init; }

    /// <summary>Expanded uncertainty of <see cref="PeakEstimatePa"/> [Pa].</summary>
    public required double PeakUncertaintyPa { get; init; }

    /// <summary>A sample of this beat stood at the end of the sensor's range.</summary>
    public bool Clipped { get; init; }

    /// <summary>A gap in the samples falls into this beat.</summary>
    public bool HasGap { get; init; }

    /// <summary>Mean pressure over the delivery plateau [Pa].</summary>
    public required double DeliveryPa { get; init; }

    /// <summary>Smallest sample [Pa].</summary>
    public required double SuctionPa { get; init; }

    /// <summary>Pressure at the start of the open phase, the column nearly at rest [Pa].</summary>
    public required double OpenStartPa { get; init; }

    /// <summary>Time from closure to closure [s].</summary>
    public double IntervalS => NextClosureS - ClosureS;

    /// <summary>Length of the delivery phase [s].</summary>
    public double DeliveryLengthS => DeliveryEndS - ClosureS;

    /// <summary>Length of the recoil [s].</summary>
    public double RecoilLengthS => OpenStartS - DeliveryEndS;

    /// <summary>Length of the open phase [s].</summary>
    public double OpenLengthS => NextClosureS - OpenStartS;

    /// <summary>Flow figures of this beat; null where the record can't carry them.</summary>
    public BeatFlow? Flow { get; init; }
}

/// <summary>What flowed during one beat.</summary>
/// <param name="ClosingVelocityMPerS">Velocity in the drive pipe just before the closure that starts the beat [m/s].</param>
/// <param name="DeliveredM3">Volume through the delivery valve [m³].</param>
/// <param name="WasteM3">Volume through the waste valve [m³].</param>
public sealed record BeatFlow(double ClosingVelocityMPerS, double DeliveredM3, double WasteM3);
