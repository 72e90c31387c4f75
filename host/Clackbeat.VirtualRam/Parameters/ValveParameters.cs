namespace Clackbeat.VirtualRam.Parameters;

/// <summary>
/// A valve plug between seat (lift 0) and stop (lift = travel). Its discharge follows
/// Q = s A ẋ + C(x) √(2 g Δh): what the moving plug sweeps, and what passes through the gap.
/// </summary>
public sealed record ValveParameters
{
    /// <summary>Area of the seat's opening, on which the pressure difference acts [m²].</summary>
    public required double SeatAreaM2 { get; init; }

    /// <summary>Travel from seat to stop [m].</summary>
    public required double TravelM { get; init; }

    /// <summary>Moving mass, with the water that moves along [kg].</summary>
    public required double MassKg { get; init; }

    /// <summary>Force towards the valve's own rest position when seated [N]: opening for the waste valve, closing for the delivery valve.</summary>
    public required double PreloadN { get; init; }

    /// <summary>Spring rate [N/m]; lift weakens the waste valve's opening force and strengthens the delivery valve's closing force.</summary>
    public double SpringNPerM { get; init; }

    /// <summary>Damping by guides and water [N s/m].</summary>
    public double DampingNSPerM { get; init; }

    /// <summary>Share of seat area × pressure difference that pushes the plug at full lift; 1 at the seat, a straight line between.</summary>
    public double ForceShareAtStop { get; init; } = 1;

    /// <summary>Discharge coefficient × circumference of the gap [m]; times lift it is the gap's effective area.</summary>
    public required double GapWidthM { get; init; }

    /// <summary>Effective area (with discharge coefficient) of the passages in series with the gap [m²].</summary>
    public required double PassageAreaM2 { get; init; }

    /// <summary>Inertia of the water in the passage, length/(g·area) [s²/m²]; used for the delivery valve.</summary>
    public double InertanceS2PerM2 { get; init; }

    /// <summary>Share of its speed that the plug keeps when it rebounds from seat or stop, 0 to below 1.</summary>
    public double Rebound { get; init; }

    /// <summary>Stiffness of the seat's facing (rubber, leather) [N/m]; it spreads the last of the closure over a millisecond or two.</summary>
    public required double SeatStiffnessNPerM { get; init; }

    /// <summary>Effective area that stays open with the plug seated [m²]: a leak.</summary>
    public double LeakAreaM2 { get; init; }
}
