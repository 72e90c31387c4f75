using Clackbeat.Signal.Figures;

namespace Clackbeat.Signal.Flow;

/// <summary>A value on its way to a figure.</summary>
/// <param name="Value">Value, in the unit of what is estimated.</param>
/// <param name="Uncertainty">Its standard uncertainty, in the same unit.</param>
internal readonly record struct Estimate(double Value, double Uncertainty)
{
    /// <summary>With its expanded uncertainty (k = 2).</summary>
    public Figure ToFigure() => new(Value, 2 * Uncertainty);
}
