namespace Clackbeat.Signal.Analysis;

/// <summary>A measured figure and its expanded uncertainty (coverage factor k = 2, JCGM 100:2008 §6).</summary>
/// <param name="Value">The figure, in the unit its owner states.</param>
/// <param name="U">Expanded uncertainty in the same unit.</param>
public readonly record struct Figure(double Value, double U);
