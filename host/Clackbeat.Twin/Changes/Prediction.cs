using Clackbeat.Signal.Figures;
using Clackbeat.Twin.Model;

namespace Clackbeat.Twin.Changes;

/// <summary>What a ram does, or would do. Figures that can't be told are null.</summary>
public sealed record Prediction
{
    /// <summary>Beats a minute.</summary>
    public Figure? RatePerMin { get; init; }

    /// <summary>Through the delivery valve [m³/s].</summary>
    public Figure? DeliveredM3PerS { get; init; }

    /// <summary>Through the waste valve [m³/s].</summary>
    public Figure? WasteM3PerS { get; init; }

    /// <summary>Peak of the pressure in the body [Pa].</summary>
    public Figure? PeakPa { get; init; }

    /// <summary>How far the pressure in the air vessel swings over a beat [Pa]; told where its air is changed.</summary>
    public Figure? VesselSwingPa { get; init; }

    /// <summary>Efficiency after d'Aubuisson.</summary>
    public Figure? Efficiency { get; init; }

    /// <summary>The twin's own beat then; null where it is the ram as it is, or stands.</summary>
    public Cycle? Beat { get; init; }

    /// <summary>Probability that it beats by itself.</summary>
    public required double WillBeat { get; init; }
}
