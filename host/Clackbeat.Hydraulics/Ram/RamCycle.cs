using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Hydraulics.Ram;

/// <summary>
/// One beat in closed form. While the waste valve is open the column obeys dV/dt = (gH/L)(1 − V²/V_t²), so
/// V = V_t tanh(g H t / (L V_t)); while it delivers, it is slowed by g (h − H)/L.
/// </summary>
/// <remarks>
/// The vertical case (L = H) is worked out in the AguaClara ram pump team's report of summer 2021, Cornell University;
/// an inclined pipe only replaces g by g H / L. No recoil, no closing time, valves without loss: an upper bound. The
/// team's rig of 2019 reached 41 to 54 % of its own bound.
/// </remarks>
public sealed record RamCycle
{
    private RamCycle()
    {
    }

    /// <summary>Waste valve open [s].</summary>
    public required double OpenS { get; init; }

    /// <summary>Delivering [s].</summary>
    public required double DeliveryS { get; init; }

    /// <summary>Volume through the waste valve a beat [m³].</summary>
    public required double WasteM3 { get; init; }

    /// <summary>Volume delivered a beat [m³].</summary>
    public required double DeliveredM3 { get; init; }

    /// <summary>Length of the beat [s].</summary>
    public double PeriodS => OpenS + DeliveryS;

    /// <summary>Mean delivered flow [m³/s].</summary>
    public double DeliveredM3PerS => DeliveredM3 / PeriodS;

    /// <summary>The rigid-column beat.</summary>
    /// <param name="ram">Lengths and heads.</param>
    /// <param name="terminalVelocityMPerS">Steady velocity with the waste valve held open, V_t [m/s].</param>
    /// <param name="closingVelocityMPerS">Velocity at closure, below V_t [m/s].</param>
    /// <param name="openingVelocityMPerS">Velocity at which the waste valve opens again, below the closing one [m/s].</param>
    public static RamCycle Rigid(
        RamGeometry ram, double terminalVelocityMPerS, double closingVelocityMPerS, double openingVelocityMPerS = 0)
    {
        double slowing = Constants.GravityMPerS2 * (ram.DeliveryHeadM - ram.SupplyHeadM) / ram.InertiaLengthM;
        double fall = closingVelocityMPerS - openingVelocityMPerS;
        return Open(ram, terminalVelocityMPerS, closingVelocityMPerS, openingVelocityMPerS) with
        {
            DeliveryS = fall / slowing,
            DeliveredM3 = ram.AreaM2 * fall * (closingVelocityMPerS + openingVelocityMPerS) / (2 * slowing),
        };
    }

    /// <summary>
    /// The same beat with the water's elasticity: the first rise to the delivery head costs g h / a, then the velocity at
    /// the body falls by 2 g (h − H)/a every 2L/a, and delivery ends before the first step that would be negative
    /// (J. Krol, Proc. IMechE 165 (1951) 53, describes the staircase). Nothing is delivered when even the first step is.
    /// </summary>
    /// <param name="ram">Lengths and heads.</param>
    /// <param name="terminalVelocityMPerS">Steady velocity with the waste valve held open [m/s].</param>
    /// <param name="closingVelocityMPerS">Velocity at closure [m/s].</param>
    public static RamCycle Elastic(RamGeometry ram, double terminalVelocityMPerS, double closingVelocityMPerS)
    {
        double stepS = ram.PipePeriodS;
        // Of one pipe 2g(h − H)/a; over several sections, whose joints echo in between, what the momentum loses in a period.
        double fall = Constants.GravityMPerS2 * (ram.DeliveryHeadM - ram.SupplyHeadM) * stepS / ram.InertiaLengthM;
        double first = closingVelocityMPerS - Constants.GravityMPerS2 * ram.DeliveryHeadM / ram.KnockWaveSpeedMPerS;
        double steps = first > 0 ? Math.Floor(first / fall) + 1 : 0;
        return Open(ram, terminalVelocityMPerS, closingVelocityMPerS, 0) with
        {
            DeliveryS = steps * stepS,
            DeliveredM3 = ram.AreaM2 * stepS * (steps * first - fall * steps * (steps - 1) / 2),
        };
    }

    private static RamCycle Open(RamGeometry ram, double terminal, double closing, double opening)
    {
        if (!(opening >= 0 && opening < closing && closing < terminal))
        {
            throw new ArgumentOutOfRangeException(
                nameof(closing), closing, "The closing velocity lies between the opening and the terminal velocity.");
        }

        double x = closing / terminal;
        double y = opening / terminal;
        double time = terminal * ram.InertiaLengthM / (Constants.GravityMPerS2 * ram.SupplyHeadM);
        return new RamCycle
        {
            OpenS = time * Math.Atanh((x - y) / (1 - x * y)),
            // ∫ V dt = V_t · time · ln(cosh) = ½ V_t · time · ln((1 − y²)/(1 − x²))
            WasteM3 = ram.AreaM2 * terminal * time * Math.Log((1 - y * y) / (1 - x * x)) / 2,
            DeliveryS = 0,
            DeliveredM3 = 0,
        };
    }
}
