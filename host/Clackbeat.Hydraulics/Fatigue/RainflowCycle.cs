namespace Clackbeat.Hydraulics.Fatigue;

/// <summary>A cycle found in a load history, in the history's own unit.</summary>
/// <param name="Range">Difference of the two turning points, above 0.</param>
/// <param name="Mean">Their mean.</param>
/// <param name="Count">1 for a whole cycle, ½ for a half.</param>
public readonly record struct RainflowCycle(double Range, double Mean, double Count);
