namespace Clackbeat.VirtualRam.Sensing;

/// <summary>One reading of the virtual sensor.</summary>
/// <param name="TimeS">Instant of the sample [s].</param>
/// <param name="Counts">What the converter read.</param>
/// <param name="PressurePa">The same as gauge pressure by the sensor's nominal range [Pa].</param>
/// <param name="TruePressurePa">The pressure at the sensor's height, before the sensor [Pa gauge].</param>
public readonly record struct VirtualSample(double TimeS, int Counts, double PressurePa, double TruePressurePa);
