namespace Clackbeat.Sensing.Conditioning;

/// <summary>A resistor that turns the current of a 4–20 mA loop into a voltage.</summary>
/// <param name="Ohm">Resistance [Ω].</param>
public readonly record struct Shunt(double Ohm)
{
    /// <summary>Voltage across it [V].</summary>
    public double VoltsAt(double currentA) => Ohm * currentA;

    /// <summary>Heat in it [W].</summary>
    public double PowerWAt(double currentA) => Ohm * currentA * currentA;

    /// <summary>
    /// Least supply of the loop [V]: what the transmitter needs across itself, the shunt and the cable at the highest
    /// current it can drive, which by NAMUR NE 43 may be above 21 mA at a fault.
    /// </summary>
    /// <param name="transmitterV">Least voltage across the transmitter by its data sheet [V].</param>
    /// <param name="cableOhm">Resistance of both cable cores [Ω].</param>
    /// <param name="highestA">Highest current [A].</param>
    public double LeastSupplyV(double transmitterV, double cableOhm, double highestA = 0.0215) =>
        transmitterV + ((Ohm + cableOhm) * highestA);
}
