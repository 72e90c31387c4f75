namespace Clackbeat.Signal.Flow;

/// <summary>
/// What is known of a beat without any law of its waste valve: a ram that runs steadily closes its valve at the velocity of the beat
/// before, in the mean over the record. The head then supplies what pipe and valves take off the water's momentum (the identity of mean heads,
/// docs/flow-method.md).
/// </summary>
internal static class SteadyBeat
{
    // The column is looked at where it is nearly at its quickest, and before the valve moves; both as shares of the open phase.
    private const double FromShare = 0.15;
    private const double ToShare = 0.03;

    /// <summary>How far the mean of that may be from nothing, as a standard uncertainty [m/s]: a ram that is tuned or starved drifts by less in a minute.</summary>
    public const double UncertaintyMPerS = 0.01;

    /// <summary>How much quicker the column is before the closure that ends a beat than before the one that starts it [m/s], and how that moves with what is fitted.</summary>
    /// <param name="window">The beat.</param>
    /// <param name="velocity">Its velocities [m/s].</param>
    /// <param name="sensitivities">Their sensitivities.</param>
    public static (double Velocity, ColumnSensitivity Sensitivity) Gain(
        FlowWindow window, ReadOnlySpan<double> velocity, ReadOnlySpan<ColumnSensitivity> sensitivities)
    {
        (double before, ColumnSensitivity ofBefore) = Ahead(window, window.Beat.ClosureS, velocity, sensitivities);
        (double after, ColumnSensitivity ofAfter) = Ahead(window, window.Beat.NextClosureS, velocity, sensitivities);
        return (after - before, ofAfter - ofBefore);
    }

    private static (double Velocity, ColumnSensitivity Sensitivity) Ahead(
        FlowWindow window, double closureS, ReadOnlySpan<double> velocity, ReadOnlySpan<ColumnSensitivity> sensitivities)
    {
        double openS = window.Beat.OpenLengthS;
        int from = Math.Clamp(window.At(closureS - (FromShare * openS)), 0, velocity.Length - 1);
        int to = Math.Clamp(window.At(closureS - (ToShare * openS)), from + 1, velocity.Length);
        double sum = 0;
        foreach (double v in velocity[from..to])
        {
            sum += v;
        }

        return (sum / (to - from), ColumnSensitivity.Mean(sensitivities[from..to]));
    }
}
