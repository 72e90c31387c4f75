using MathNet.Numerics.Statistics;

namespace Clackbeat.Signal.Flow;

/// <summary>Where the fit of the column starts from: figures read off the record without solving anything.</summary>
internal static class FirstGuess
{
    private const double LeastValve = 0.005;
    private const double MostValve = 5;

    /// <summary>The sensor's bias [m]: the head while the column has hardly begun to move.</summary>
    public static double BiasM(IReadOnlyList<FlowWindow> windows) => Statistics.Median(windows.Select(w =>
        w.MedianHeadM(w.Beat.OpenStartS + (0.05 * w.Beat.OpenLengthS), w.Beat.OpenStartS + (0.15 * w.Beat.OpenLengthS))));

    /// <summary>Change of velocity a wave from the plateau makes [m/s].</summary>
    public static double WaveStep(IReadOnlyList<FlowWindow> windows, in ColumnModel prior, double biasM)
    {
        double plateau = Statistics.Median(windows.Select(w =>
            w.MedianHeadM(w.Beat.ClosureS + (0.3 * w.Beat.DeliveryLengthS), w.Beat.DeliveryEndS - (0.2 * w.Beat.DeliveryLengthS))));
        return Math.Max(0, (plateau - biasM - prior.SupplyHeadM) / prior.Impedance);
    }

    /// <summary>Starting velocities that make the end of each delivery still [m/s], and the k of the waste valve that goes with them [s²/m].</summary>
    /// <param name="windows">The beats.</param>
    /// <param name="model">The column, the bias roughly known.</param>
    /// <param name="buffer">Room for the longest window.</param>
    public static (double[] Starts, double Valve) Starts(
        IReadOnlyList<FlowWindow> windows, in ColumnModel model, double[] buffer)
    {
        double[] starts = new double[windows.Count];
        var valves = new List<double>();
        for (int j = 0; j < windows.Count; j++)
        {
            FlowWindow window = windows[j];
            Span<double> velocity = buffer.AsSpan(0, window.TimeS.Length);
            ColumnInversion.Run(window.TimeS, window.ColumnHeadM, model, 0, velocity);
            starts[j] = -ZeroFlowAnchor.AtRest(window, velocity);
            double lateS = window.Beat.NextClosureS - (0.1 * window.Beat.OpenLengthS);
            double head = window.MedianHeadM(lateS - (0.06 * window.Beat.OpenLengthS), lateS) - model.BiasM;
            double speed = Math.Max(0.1, velocity[Math.Min(window.At(lateS), velocity.Length - 1)] + starts[j]);
            valves.Add(head / (speed * speed));
        }

        return (starts, Math.Clamp(Statistics.Median(valves), LeastValve, MostValve));
    }
}
