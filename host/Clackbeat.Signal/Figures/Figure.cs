namespace Clackbeat.Signal.Figures;

/// <summary>
/// A measured figure and its expanded uncertainty (JCGM 100:2008 §6): value ± U holds the truth in 95 of 100 cases.
/// </summary>
/// <param name="Value">The figure, in the unit its owner states.</param>
/// <param name="U">Expanded uncertainty in the same unit.</param>
/// <param name="K">Coverage factor, U over the standard uncertainty: 2, and more where few beats tell the scatter (Student).</param>
public readonly record struct Figure(double Value, double U, double K = 2)
{
    /// <summary>Standard uncertainty, same unit.</summary>
    public double StandardU => U / K;

    /// <summary>
    /// True where the figure is an upper bound: what it stands for may be anything below <see cref="Value"/> + <see cref="U"/>, since
    /// something that lowers it can't be seen. <see cref="U"/> is then the uncertainty of the bound.
    /// </summary>
    public bool IsUpperBound { get; init; }

    /// <summary>The same figure as an upper bound.</summary>
    public Figure AtMost() => this with { IsUpperBound = true };
}
