namespace Clackbeat.Signal.Flow;

/// <summary>The sensor's noise, from the second differences of the open phase: the flow's own change drops out of them.</summary>
internal static class OpenNoise
{
    // A converter that repeats one count shows no noise at all; a tenth of a metre's hundredth is under every sensor.
    private const double LeastM = 0.008;

    // Variance of x(i-1) − 2 x(i) + x(i+1) for independent x is six times theirs; the largest 5 % are events, not noise.
    private const double KeptShare = 0.95;

    /// <summary>Standard deviation of the noise [m].</summary>
    public static double Of(IReadOnlyList<FlowWindow> windows)
    {
        var squares = new List<double>();
        foreach (FlowWindow window in windows)
        {
            Beats.Beat beat = window.Beat;
            int from = window.At(beat.OpenStartS + (0.2 * beat.OpenLengthS)) + 1;
            int to = window.At(beat.NextClosureS - (0.2 * beat.OpenLengthS)) - 1;
            for (int i = from; i < to; i++)
            {
                double second = window.HeadM[i - 1] - (2 * window.HeadM[i]) + window.HeadM[i + 1];
                squares.Add(second * second);
            }
        }

        squares.Sort();
        int kept = (int)(KeptShare * squares.Count);
        double sum = 0;
        for (int i = 0; i < kept; i++)
        {
            sum += squares[i];
        }

        return kept == 0 ? LeastM : Math.Max(LeastM, 1.1 * Math.Sqrt(sum / kept / 6));
    }
}
