using MathNet.Numerics.Statistics;

namespace Clackbeat.Signal.Flow;

/// <summary>
/// When both valves are certainly shut: from the end of delivery until the body falls to the supply head. The wave that ends a delivery
/// stops the water at the body; what it would have turned back lowers the head instead, which then stands between the delivery and the
/// supply head for a pipe period, and nothing flows.
/// </summary>
/// <param name="FromS">The delivery valve shuts [s].</param>
/// <param name="ToS">The body falls to the supply head [s]; below it the waste valve may open.</param>
internal readonly record struct ShutSpan(double FromS, double ToS)
{
    // The body stands at the vessel's pressure while water flows up; ripples of a plateau are some per cent.
    private const double DeliveryShare = 0.85;

    // Of the pipe period: what is shorter is a fall, not a standstill.
    private const double LeastPeriods = 0.6;

    // Of the delivery's rise: what changes by more is no standstill.
    private const double MostSlope = 0.25;
    private const double LeastSamples = 5;

    // Left out at either end, where valves still move.
    private const double Trim = 0.2;

    // How far from nothing the column may be found to move then, as a standard uncertainty [m/s].
    private const double Floor = 0.04;
    private const double WaveShare = 0.12;

    /// <summary>Standard uncertainty of a velocity found at the body then [m/s]; it should be 0.</summary>
    /// <param name="waveStep">Change of velocity a wave makes [m/s].</param>
    public static double Uncertainty(double waveStep) => Floor + (WaveShare * waveStep);

    /// <summary>Mean velocity then [m/s], and how it moves with what is fitted.</summary>
    /// <param name="window">The beat.</param>
    /// <param name="velocity">Its velocities [m/s].</param>
    /// <param name="sensitivities">Their sensitivities; empty when they aren't asked for.</param>
    public (double Velocity, ColumnSensitivity Sensitivity) Mean(
        FlowWindow window, ReadOnlySpan<double> velocity, ReadOnlySpan<ColumnSensitivity> sensitivities)
    {
        double trimS = Trim * (ToS - FromS);
        int to = Math.Min(window.At(ToS - trimS) + 1, velocity.Length);
        int from = Math.Min(window.At(FromS + trimS), to - 1);
        double sum = 0;
        foreach (double v in velocity[from..to])
        {
            sum += v;
        }

        return (sum / (to - from), sensitivities.IsEmpty ? default : ColumnSensitivity.Mean(sensitivities[from..to]));
    }

    /// <summary>The span of a beat; null where the body falls at once.</summary>
    /// <param name="window">The beat.</param>
    /// <param name="supplyHeadM">Supply head [m above datum].</param>
    /// <param name="periodS">Pipe period 2L/a [s].</param>
    public static ShutSpan? Of(FlowWindow window, double supplyHeadM, double periodS)
    {
        Beats.Beat beat = window.Beat;
        double restM = window.MedianHeadM(beat.OpenStartS + (0.05 * beat.OpenLengthS), beat.OpenStartS + (0.15 * beat.OpenLengthS));
        int closure = window.At(beat.ClosureS);
        int open = Math.Min(window.At(beat.OpenStartS), window.TimeS.Length - 1);
        int end = Math.Min(window.At(beat.DeliveryEndS), open);
        if (end - closure < LeastSamples)
        {
            return null;
        }

        // The head may stand above the threshold of a delivery while both valves are shut, so the higher quarter tells the vessel's pressure.
        double plateauM = ArrayStatistics.UpperQuartileInplace(window.HeadM[closure..end]);
        double delivering = restM + (DeliveryShare * (plateauM - restM));
        int last = open;
        while (last > closure && window.HeadM[last] < delivering)
        {
            last--;
        }

        // Right after the fall the head may swing lower for a moment, too short for the waste valve to open.
        int to = open;
        while (to > last && window.HeadM[to] <= restM + supplyHeadM)
        {
            to--;
        }

        if (to - last < LeastSamples || window.TimeS[to] - window.TimeS[last] < LeastPeriods * periodS)
        {
            return null;
        }

        var span = new ShutSpan(window.TimeS[last], window.TimeS[to]);
        double trimS = Trim * (span.ToS - span.FromS);
        double[] inside = window.HeadM[window.At(span.FromS + trimS)..(window.At(span.ToS - trimS) + 1)];
        double lowest = restM + supplyHeadM;
        return inside.Min() > lowest && inside.Max() < delivering && inside.Max() - inside.Min() < MostSlope * (plateauM - restM) ? span : null;
    }
}
