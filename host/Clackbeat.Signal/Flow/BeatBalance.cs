namespace Clackbeat.Signal.Flow;

/// <summary>What one beat moved, for a drive pipe of one square metre: the area comes in later. Lengths are volume over area.</summary>
/// <param name="IntervalS">Length of the beat [s].</param>
/// <param name="DeliveredM">Through the delivery valve [m].</param>
/// <param name="WasteM">Through the waste valve [m].</param>
/// <param name="ClosingVelocity">Highest velocity before the next closure [m/s].</param>
/// <param name="DeliveredHeadM2">Head times flow over the delivery [m²].</param>
/// <param name="WasteHeadM2">Head times flow over the rest of the beat [m²].</param>
/// <param name="FrictionM2">Head lost in pipe and entrance times flow [m²].</param>
internal readonly record struct BeatBalance(
    double IntervalS,
    double DeliveredM,
    double WasteM,
    double ClosingVelocity,
    double DeliveredHeadM2,
    double WasteHeadM2,
    double FrictionM2)
{
    private const double PeakWidthS = 0.005;
    private const double LastShare = 0.25;

    /// <summary>Drawn from the supply [m].</summary>
    public double DrawnM => DeliveredM + WasteM;

    /// <summary>Sums up the beat of a window.</summary>
    /// <param name="window">The window.</param>
    /// <param name="model">The column.</param>
    /// <param name="velocity">Velocities at the body [m/s].</param>
    public static BeatBalance Of(FlowWindow window, in ColumnModel model, ReadOnlySpan<double> velocity)
    {
        Beats.Beat beat = window.Beat;

        // While both valves are shut nothing flows, whatever the column is found to do.
        (double endS, double openS) = window.Shut is { } shut ? (shut.FromS, shut.ToS) : (beat.DeliveryEndS, beat.DeliveryEndS);
        Sums delivery = Sum(window, model, velocity, beat.ClosureS, endS);
        Sums rest = Sum(window, model, velocity, openS, beat.NextClosureS);
        return new BeatBalance(
            beat.IntervalS, delivery.Volume - delivery.Snifter, rest.Volume + delivery.Snifter, Highest(window, velocity),
            delivery.Head, rest.Head, delivery.Loss + rest.Loss);
    }

    /// <summary>The highest velocity in the last quarter of the open phase, over a few milliseconds so that noise is no peak.</summary>
    private static double Highest(FlowWindow window, ReadOnlySpan<double> velocity)
    {
        Beats.Beat beat = window.Beat;
        int from = window.At(beat.NextClosureS - (LastShare * beat.OpenLengthS));
        int to = Math.Min(window.At(beat.NextClosureS), velocity.Length - 1);
        if (to <= from)
        {
            return velocity[Math.Min(from, velocity.Length - 1)];
        }

        double stepS = (window.TimeS[to] - window.TimeS[from]) / (to - from);
        int width = Math.Clamp((int)(PeakWidthS / stepS), 1, to - from);
        (double sum, double highest) = (0, double.NegativeInfinity);
        for (int i = from; i < to; i++)
        {
            sum += velocity[i] - (i - from >= width ? velocity[i - width] : 0);
            highest = i - from >= width - 1 ? Math.Max(highest, sum / width) : highest;
        }

        return highest;
    }

    private static Sums Sum(FlowWindow window, in ColumnModel model, ReadOnlySpan<double> velocity, double fromS, double toS)
    {
        int from = Math.Max(1, window.At(fromS));
        int to = Math.Min(window.At(toS), velocity.Length - 1);
        var sums = default(Sums);
        for (int i = from; i <= to; i++)
        {
            // The first and the last step are cut where the phase begins and ends.
            double start = Math.Max(window.TimeS[i - 1], fromS);
            double end = Math.Min(window.TimeS[i], toS);
            double v = 0.5 * (velocity[i - 1] + velocity[i]);
            double move = v * Math.Max(0, end - start);
            double head = (0.5 * (window.HeadM[i - 1] + window.HeadM[i])) - model.BiasM;
            double spit = model.SnifterVelocityMPerS * Math.Sqrt(Math.Max(0, head)) * Math.Max(0, end - start);
            sums = new Sums(
                sums.Volume + move, sums.Head + (head * move), sums.Loss + (model.Loss * v * Math.Abs(v) * move), sums.Snifter + spit);
        }

        return sums;
    }

    private readonly record struct Sums(double Volume, double Head, double Loss, double Snifter);
}
