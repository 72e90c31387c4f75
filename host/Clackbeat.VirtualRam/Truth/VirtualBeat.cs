namespace Clackbeat.VirtualRam.Truth;

/// <summary>What really happened in one beat, from one closure of the waste valve to the next.</summary>
public sealed record VirtualBeat
{
    /// <summary>Instant the plug met its seat [s].</summary>
    public required double ClosureS { get; init; }

    /// <summary>Time to the next closure [s].</summary>
    public required double IntervalS { get; init; }

    /// <summary>Highest pressure in the body, before any sensor [Pa gauge].</summary>
    public required double PeakPa { get; init; }

    /// <summary>Lowest pressure in the body [Pa gauge].</summary>
    public required double SuctionPa { get; init; }

    /// <summary>Highest velocity in the pipe's end during the open phase that ended with this closure [m/s].</summary>
    public required double ClosingVelocityMPerS { get; init; }

    /// <summary>Net volume through the waste valve [m³].</summary>
    public required double WasteM3 { get; init; }

    /// <summary>Net volume through the delivery valve [m³].</summary>
    public required double DeliveredM3 { get; init; }

    /// <summary>Volume that arrived at the outlet of the main meanwhile [m³]; less than delivered where the main leaks.</summary>
    public double ArrivedM3 { get; init; }

    /// <summary>Energy passed through the delivery valve: body pressure times flow [J].</summary>
    public required double DeliveredJ { get; init; }

    /// <summary>Mean body pressure over the middle eight tenths of the time with forward flow through the delivery valve [Pa gauge]; null when there was none.</summary>
    public required double? PlateauPa { get; init; }

    /// <summary>Sum of waste and delivered [m³].</summary>
    public double DrawnM3 => WasteM3 + DeliveredM3;
}
