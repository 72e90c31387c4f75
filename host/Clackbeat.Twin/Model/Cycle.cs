namespace Clackbeat.Twin.Model;

/// <summary>The mean beat of a running twin. Heads are over the datum, the waste valve's outlet.</summary>
public sealed record Cycle
{
    /// <summary>Time from closure to closure [s].</summary>
    public required double IntervalS { get; init; }

    /// <summary>Velocity in the drive pipe before the closure [m/s].</summary>
    public required double ClosingVelocityMPerS { get; init; }

    /// <summary>Volume through the waste valve a beat [m³].</summary>
    public required double WasteM3 { get; init; }

    /// <summary>Volume through the delivery valve a beat [m³].</summary>
    public required double DeliveredM3 { get; init; }

    /// <summary>Highest head in the body [m].</summary>
    public required double PeakM { get; init; }

    /// <summary>Lowest head in the body [m].</summary>
    public required double SuctionM { get; init; }

    /// <summary>Mean head of the delivery plateau [m]; null when nothing is delivered.</summary>
    public required double? PlateauM { get; init; }

    /// <summary>Highest less lowest head in the vessel over the beat [m]; 0 while it stands.</summary>
    public double VesselSwingM { get; init; }

    /// <summary>Head in the body, time 0 at the closure, from before it to the next.</summary>
    public required HeadCurve Head { get; init; }
}

/// <summary>Heads at even steps.</summary>
/// <param name="StartS">Time of the first [s].</param>
/// <param name="StepS">Step [s].</param>
/// <param name="HeadM">Heads [m].</param>
public sealed record HeadCurve(double StartS, double StepS, IReadOnlyList<double> HeadM)
{
    /// <summary>Head at a time, straight between steps; the ends hold on [m].</summary>
    public double At(double timeS)
    {
        double place = Math.Clamp((timeS - StartS) / StepS, 0, HeadM.Count - 1.000001);
        int i = (int)place;
        return HeadM[i] + ((place - i) * (HeadM[i + 1] - HeadM[i]));
    }

    /// <summary>Mean head between two times [m].</summary>
    public double Mean(double fromS, double toS)
    {
        int points = Math.Max(2, (int)((toS - fromS) / StepS));
        double sum = 0;
        for (int i = 0; i < points; i++)
        {
            sum += At(fromS + ((toS - fromS) * (i + 0.5) / points));
        }

        return sum / points;
    }
}
