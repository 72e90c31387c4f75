namespace Clackbeat.Tuning.Trials;

/// <summary>Natural logarithms of figures over those at the setting where a twin was fitted.</summary>
/// <param name="Delivered">Of the delivered flow.</param>
/// <param name="Efficiency">Of the efficiency.</param>
/// <param name="Peak">Of the peak.</param>
public readonly record struct LogRatios(double Delivered, double Efficiency, double Peak);

/// <summary>What a twin foretells of one setting.</summary>
/// <param name="Setting">The setting, in the knob's unit.</param>
/// <param name="Twin">By the twin; null where it comes to a stop.</param>
/// <param name="Others">By parameter sets one standard deviation from the twin's, each along another axis; empty where it stops.</param>
public sealed record TwinCurvePoint(double Setting, LogRatios? Twin, IReadOnlyList<LogRatios> Others);

/// <summary>What the twin of a trial's record foretells over the range of the knob.</summary>
/// <param name="Points">From the lowest setting to the highest.</param>
public sealed record TwinCurve(IReadOnlyList<TwinCurvePoint> Points)
{
    /// <summary>A range of at least two settings, in order, the same number of other parameter sets at each.</summary>
    public bool IsSound => Points.Count >= 2 && Points.Zip(Points.Skip(1)).All(p => p.First.Setting < p.Second.Setting)
        && Points.Where(p => p.Twin is not null).Select(p => p.Others.Count).Distinct().Count() <= 1;
}
