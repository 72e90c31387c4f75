namespace Clackbeat.Sensing.Conditioning;

/// <summary>A resistor that turns the current of a 4–20 mA loop into a voltage.</summary>
/// <param name="Ohm">Resistance [Ω].</param>
public readonly record struct Shunt(double Ohm)
{
    /// <summary>Voltage across it [V].</summary>
    public double VoltsAt(double currentA) => Ohm * currentA;

    /// <summary>Heat in it [W].</summary>
    public double PowerWAt(double currentA) => Ohm * currentA * currentA;

    /// <summary>Current through it when water or a cut cable joins both cores, and the whole supply stands on it [A].</summary>
    public double ShortedA(double supplyV) => supplyV / Ohm;

    /// <summary>Heat in it at that fault [W]: what it must bear for as long as nobody looks.</summary>
    public double ShortedW(double supplyV) => supplyV * supplyV / Ohm;

    /// <summary>
    /// Least supply of the loop [V]: what the transmitter needs across itself, the shunt and all that is in series with
    /// it at the highest current it can drive, which by NAMUR NE 43 may be above 21 mA at a fault.
    /// </summary>
    /// <param name="transmitterV">Least voltage across the transmitter by its data sheet [V].</param>
    /// <param name="seriesOhm">Resistance of both cable cores and of the fuse [Ω].</param>
    /// <param name="diodeV">Drop of a diode against wrong polarity [V]; 0 without one.</param>
    /// <param name="highestA">Highest current [A].</param>
    public double LeastSupplyV(double transmitterV, double seriesOhm, double diodeV = 0, double highestA = 0.0215) =>
        transmitterV + diodeV + ((Ohm + seriesOhm) * highestA);
}
