namespace Clackbeat.Signal.Flow;

/// <summary>A wave speed found in the record.</summary>
/// <param name="MPerS">Wave speed [m/s].</param>
/// <param name="Spread">Its standard uncertainty over its value.</param>
/// <param name="Clear">False when the record shows no echo and the site's figure stands in.</param>
internal readonly record struct FoundWaveSpeed(double MPerS, double Spread, bool Clear);

/// <summary>
/// The wave speed from the echoes of the drive pipe: closure, spike, steps of the plateau and its end all come back
/// after 2L/a. With the right period the characteristics cancel each echo; with a wrong one each leaves a false step in
/// the velocity at the body. So the sum of the velocity's steps, from closure into the open phase, dips at the right
/// wave speed. A dip also shows at whole multiples of it, which are looked into, and how far it may be trusted depends
/// on the distance to the site's figure: air slows a wave, little can hasten it.
/// </summary>
internal static class WaveSpeedFinder
{
    private const double Grid = 1.012;
    private const int HalfDip = 4;
    private const double Lowest = 0.12;
    private const double Highest = 1.35;

    // A clean sum of steps falls with the wave speed, for the same head then makes a smaller velocity.
    private const double Tilt = 0.3;
    private const double MultipleTilt = 0.5;
    private const double LeastDip = 0.08;
    private const double SiteSpread = 0.1;

    // Delivery ends when a wave comes back from the intake, so it lasts one pipe period or more: a bound from below.
    private const double LongestPeriods = 1.25;
    private const double Near = 0.12;
    private const double EchoSpread = 0.02;
    private const double DeeperAtMultiple = 1.3;
    private const double MostWindows = 12;

    /// <summary>Looks for the wave speed.</summary>
    /// <param name="windows">Beats.</param>
    /// <param name="site">The column with the site's wave speed and the sensor's bias roughly known.</param>
    /// <param name="siteSpread">Standard uncertainty of the site's wave speed over its value.</param>
    /// <param name="samplesPerPeriod">Samples in the site's pipe period: with few, sampling itself makes dips.</param>
    public static FoundWaveSpeed Find(IReadOnlyList<FlowWindow> windows, ColumnModel site, double siteSpread, double samplesPerPeriod)
    {
        int every = (int)Math.Ceiling(windows.Count / MostWindows);
        FlowWindow[] some = [.. windows.Where((_, i) => i % every == 0)];
        double[] velocity = new double[some.Max(w => w.TimeS.Length)];
        var speeds = new List<double>();
        var steps = new List<double>();
        double[] deliveries = [.. some.Select(w => w.Beat.DeliveryLengthS).Order()];
        double slowest = 2 * site.LengthM / (LongestPeriods * deliveries[deliveries.Length / 2]);
        double from = Math.Min(0.9 * site.WaveSpeedMPerS, Math.Max(Lowest * site.WaveSpeedMPerS, slowest));
        for (double a = from; a < Highest * site.WaveSpeedMPerS; a *= Grid)
        {
            speeds.Add(a);
            steps.Add(Math.Log(Steps(some, site with { WaveSpeedMPerS = a }, velocity)));
        }

        double[] dips = Dips(speeds, steps);
        int best = Best(speeds, steps, dips, site.WaveSpeedMPerS, 1 + (10 / samplesPerPeriod));
        best = WithoutMultiple(speeds, steps, dips, best);
        if (dips[best] < LeastDip)
        {
            return new FoundWaveSpeed(site.WaveSpeedMPerS, siteSpread, false);
        }

        // Near the site's figure two witnesses agree and are averaged by their weights; far from it a multiple may have
        // been taken for the wave speed itself.
        double found = speeds[best] * Math.Pow(Grid, Offset(steps, best));
        double apart = Math.Log(found / site.WaveSpeedMPerS);
        if (Math.Abs(apart) > Near)
        {
            return new FoundWaveSpeed(found, 0.04, true);
        }

        double pull = EchoSpread * EchoSpread / ((EchoSpread * EchoSpread) + (siteSpread * siteSpread));
        return new FoundWaveSpeed(
            found * Math.Exp(-pull * apart), Math.Max(EchoSpread * Math.Sqrt(1 - pull), 0.3 * Math.Abs(apart)), true);
    }

    private static double Steps(FlowWindow[] windows, in ColumnModel model, double[] velocity)
    {
        (double sum, long count) = (0, 0);
        foreach (FlowWindow window in windows)
        {
            Span<double> v = velocity.AsSpan(0, window.TimeS.Length);
            ColumnInversion.Run(window.TimeS, window.HeadM, model, 0, v);
            int from = window.At(window.Beat.ClosureS + 0.002);
            int to = window.At(window.Beat.DeliveryEndS + (0.2 * window.Beat.OpenLengthS));
            for (int i = from + 1; i < to; i++)
            {
                sum += Math.Abs(v[i] - v[i - 1]);
            }

            count += to - from;
        }

        return (sum / Math.Max(1, count)) + 1e-12;
    }

    /// <summary>Where a parabola through the lowest point and its neighbours has its bottom, in grid steps.</summary>
    private static double Offset(List<double> steps, int i)
    {
        if (i < 1 || i > steps.Count - 2)
        {
            return 0;
        }

        double bend = steps[i - 1] - (2 * steps[i]) + steps[i + 1];
        return bend > 0 ? Math.Clamp(0.5 * (steps[i - 1] - steps[i + 1]) / bend, -0.5, 0.5) : 0;
    }

    private static double[] Dips(List<double> speeds, List<double> steps)
    {
        var dips = new double[speeds.Count];
        Array.Fill(dips, double.NegativeInfinity);
        for (int i = HalfDip; i < dips.Length - HalfDip; i++)
        {
            dips[i] = (0.5 * (steps[i - HalfDip] + steps[i + HalfDip])) - steps[i];
        }

        return dips;
    }

    private static int Best(List<double> speeds, List<double> steps, double[] dips, double siteSpeed, double mostDoubt)
    {
        (double best, int index) = (double.NegativeInfinity, 0);
        for (int i = 0; i < dips.Length; i++)
        {
            double off = Math.Log(speeds[i] / siteSpeed);
            off = off > 0 ? 2 * off : off;
            double doubt = Math.Min(off * off / (8 * SiteSpread * SiteSpread), off > 0.2 ? 9 : mostDoubt);
            double score = dips[i] - steps[i] - (Tilt * Math.Log(speeds[i])) - doubt;
            if (score > best)
            {
                (best, index) = (score, i);
            }
        }

        return index;
    }

    private static int WithoutMultiple(List<double> speeds, List<double> steps, double[] dips, int found)
    {
        int answer = found;
        for (int multiple = 2; multiple <= 4; multiple++)
        {
            int deepest = -1;
            for (int i = 0; i < found; i++)
            {
                if (Math.Abs(Math.Log(speeds[i] * multiple / speeds[found])) < 0.045
                    && (deepest < 0 || dips[i] > dips[deepest]))
                {
                    deepest = i;
                }
            }

            if (deepest >= 0
                && dips[deepest] > DeeperAtMultiple * dips[found]
                && steps[deepest] + (MultipleTilt * Math.Log(speeds[deepest]))
                    < steps[found] + (MultipleTilt * Math.Log(speeds[found])))
            {
                answer = deepest;
            }
        }

        return answer;
    }
}
