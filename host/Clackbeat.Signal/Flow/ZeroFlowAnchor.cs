namespace Clackbeat.Signal.Flow;

/// <summary>
/// The other anchor: when the delivery valve has shut, both valves are shut and nothing flows at the body. The fall at
/// the end of the plateau is quick against the sampling, so the mean of the middle half of the velocities around it is
/// taken. A valve that seats late lets water run back first, which makes the anchor negative: it is trusted less on
/// that side. Expectation and widths come from the rams of the virtual ram and of an independent model with known
/// flows (docs/flow-method.md): the step of one wave, a plateau's head over a/g, sets their scale.
/// </summary>
internal static class ZeroFlowAnchor
{
    private const double HalfWidthS = 0.005;

    // Samples within twice that at 10 kHz and somewhat more; as many fit on the stack.
    private const int Usual = 128;

    /// <summary>Velocity around the end of delivery [m/s].</summary>
    public static double Velocity(FlowWindow window, ReadOnlySpan<double> velocity) => Velocity(window, velocity, []).Velocity;

    /// <summary>Velocity when nothing should flow [m/s]: while both valves are shut, or where that isn't seen around the end of delivery.</summary>
    public static double AtRest(FlowWindow window, ReadOnlySpan<double> velocity) =>
        window.Shut is { } shut ? shut.Mean(window, velocity, []).Velocity : Velocity(window, velocity);

    /// <summary>The same, and how it moves with what is fitted.</summary>
    /// <param name="window">The window.</param>
    /// <param name="velocity">Its velocities [m/s].</param>
    /// <param name="sensitivities">Their sensitivities; empty when they aren't asked for.</param>
    public static (double Velocity, ColumnSensitivity Sensitivity) Velocity(
        FlowWindow window, ReadOnlySpan<double> velocity, ReadOnlySpan<ColumnSensitivity> sensitivities)
    {
        double endS = window.Beat.DeliveryEndS;
        int to = Math.Min(window.At(endS + HalfWidthS) + 1, velocity.Length);
        int from = Math.Min(window.At(endS - HalfWidthS), Math.Max(0, to - 1));
        int count = Math.Max(1, to - from);
        Span<double> sorted = count <= Usual ? stackalloc double[Usual] : new double[count];
        Span<int> places = count <= Usual ? stackalloc int[Usual] : new int[count];
        for (int i = 0; i < count; i++)
        {
            (sorted[i], places[i]) = (velocity[from + i], from + i);
        }

        sorted[..count].Sort(places[..count]);
        int quarter = count / 4;
        double sum = 0;
        var sensitivity = default(ColumnSensitivity);
        for (int i = quarter; i < count - quarter; i++)
        {
            sum += sorted[i];
            sensitivity = sensitivities.IsEmpty ? sensitivity : sensitivity + sensitivities[places[i]];
        }

        int middle = count - (2 * quarter);
        return (sum / middle, sensitivity / middle);
    }

    /// <summary>What the velocity around the end of delivery should be [m/s] for a wave step [m/s].</summary>
    public static double Expected(double waveStep) => -0.15 * waveStep;

    /// <summary>How far a velocity lies outside of twice its standard uncertainty [m/s]: 0 inside, positive above, negative below.</summary>
    public static double Beyond(double velocity, double waveStep)
    {
        double apart = velocity - Expected(waveStep);
        return Math.Sign(apart) * Math.Max(0, Math.Abs(apart) - (2 * Uncertainty(velocity, waveStep)));
    }

    /// <summary>Standard uncertainty of that [m/s], by the side on which the velocity lies.</summary>
    public static double Uncertainty(double velocity, double waveStep) =>
        velocity > Expected(waveStep) ? 0.06 + (0.08 * waveStep) : 0.15 + (0.1 * waveStep);
}
