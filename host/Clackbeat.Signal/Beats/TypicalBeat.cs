using Clackbeat.Signal.Figures;

namespace Clackbeat.Signal.Beats;

/// <summary>The median of many beats laid over each other at their closure.</summary>
public static class TypicalBeat
{
    private const int MostPoints = 3000;
    private const double BeforeShare = 0.1;
    private const int LeastCurves = 3;

    /// <summary>Lays the beats over each other and takes the median at each instant.</summary>
    /// <param name="curves">Beats, time 0 at their closure.</param>
    /// <param name="intervalS">Median interval [s]; where fewer than half of the beats last so long the curve ends.</param>
    public static TraceCurve Of(IReadOnlyList<TraceCurve> curves, double intervalS)
    {
        TraceCurve[] usable = [.. curves.Where(c => c.TimeS.Count > 8)];
        if (usable.Length < LeastCurves)
        {
            return usable.Length > 0 ? usable[0] : new TraceCurve([], []);
        }

        // Copied, since a list behind an interface takes several times as long to read.
        (double[] TimeS, double[] PressurePa)[] samples = [.. usable.Select(c => ((double[])[.. c.TimeS], (double[])[.. c.PressurePa]))];
        double usualS = usable.Average(c => (c.TimeS[^1] - c.TimeS[0]) / (c.TimeS.Count - 1));
        double stepS = Math.Max(0.5 * usualS, (1 + BeforeShare) * intervalS / MostPoints);
        int before = (int)(BeforeShare * intervalS / stepS);
        int after = (int)(intervalS / stepS);
        double[] times = new double[before + after];
        double[] pressures = new double[times.Length];
        int[] places = new int[usable.Length];
        var values = new List<double>(usable.Length);
        int count = 0;
        for (; count < times.Length; count++)
        {
            times[count] = (count - before) * stepS;
            Collect(samples, times[count], places, values);
            if (values.Count * 2 < usable.Length)
            {
                break;
            }

            values.Sort();
            int middle = values.Count / 2;
            pressures[count] = values.Count % 2 == 1 ? values[middle] : 0.5 * (values[middle] + values[middle - 1]);
        }

        return new TraceCurve(times[..count], pressures[..count]);
    }

    private static void Collect((double[] TimeS, double[] PressurePa)[] curves, double timeS, int[] places, List<double> values)
    {
        values.Clear();
        for (int c = 0; c < curves.Length; c++)
        {
            (double[] t, double[] p) = curves[c];
            int i = places[c];
            while (i + 1 < t.Length && t[i + 1] <= timeS)
            {
                i++;
            }

            places[c] = i;
            if (i + 1 < t.Length && timeS >= t[0])
            {
                double share = (timeS - t[i]) / (t[i + 1] - t[i]);
                values.Add(p[i] + (share * (p[i + 1] - p[i])));
            }
        }
    }
}
