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

    /// <summary>A hinged flap instead of a plug; null for a plug.</summary>
    public FlapParameters? Flap { get; init; }

    /// <summary>Lift at which a still valve stays, without flow [m]: its stop, or where spring or weight no longer push.</summary>
    public double RestLiftM => Flap is { } flap
        ? Math.Min(TravelM, flap.RestRad * flap.ArmM)
        : SpringNPerM > 0 ? Math.Min(TravelM, Math.Max(0, PreloadN / SpringNPerM)) : TravelM;

    /// <summary>The valve stays open short of its stop, so flow moves it before it shuts.</summary>
    public bool Floats => RestLiftM < TravelM;

    /// <summary>Force that opens the waste valve at a lift, its weight and spring together [N].</summary>
    /// <param name="liftM">Lift [m].</param>
    public double OpeningForceN(double liftM) => Flap is { } flap
        ? PreloadN * Math.Sin(flap.RestRad - liftM / flap.ArmM) / Math.Sin(flap.RestRad)
        : PreloadN - SpringNPerM * liftM;

    /// <summary>Effective area open at a lift, gap and passages in series, leak left out [m²].</summary>
    /// <param name="liftM">Lift [m].</param>
    public double OpenAreaM2(double liftM)
    {
        double gap = GapWidthM * (Flap is { } flap ? flap.ArmM * Math.Sin(Math.Max(0, liftM) / flap.ArmM) : Math.Max(0, liftM));
        return gap > 0 ? gap * PassageAreaM2 / Math.Sqrt(gap * gap + PassageAreaM2 * PassageAreaM2) : 0;
    }

    /// <summary>Share of seat area × pressure difference that pushes at a lift.</summary>
    /// <param name="liftM">Lift [m].</param>
    public double ForceShare(double liftM) => 1 - (1 - ForceShareAtStop) * Math.Max(0, liftM) / TravelM;
}

/// <summary>
/// A flap on a hinge, as in a swing check: weight brings it back to an angle, and nothing stops it on the way there. Its lift is
/// counted as the arc at its middle.
/// </summary>
public sealed record FlapParameters
{
    /// <summary>From the hinge to the flap's middle [m].</summary>
    public required double ArmM { get; init; }

    /// <summary>Angle from the seat at which it hangs in still water [rad], above 0 and below 1.5.</summary>
    public required double RestRad { get; init; }
}
