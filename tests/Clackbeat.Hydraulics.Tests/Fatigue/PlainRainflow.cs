using Clackbeat.Hydraulics.Fatigue;

namespace Clackbeat.Hydraulics.Tests.Fatigue;

/// <summary>
/// The steps of ASTM E1049-85 §5.4.4 written out over the whole history at once, from the standard's words and without any of
/// the product's code, as its plain twin.
/// </summary>
internal static class PlainRainflow
{
    internal static List<RainflowCycle> Count(IReadOnlyList<double> samples)
    {
        List<double> history = Reversals(samples);
        var kept = new List<double>();
        var found = new List<RainflowCycle>();
        foreach (double reversal in history)
        {
            kept.Add(reversal);
            bool more = true;
            while (more && kept.Count > 2)
            {
                int n = kept.Count;
                double x = Math.Abs(kept[n - 1] - kept[n - 2]);
                double y = Math.Abs(kept[n - 2] - kept[n - 3]);
                if (x < y)
                {
                    more = false;
                }
                else if (n == 3)
                {
                    found.Add(Cycle(kept[0], kept[1], 0.5));
                    kept.RemoveAt(0);
                }
                else
                {
                    found.Add(Cycle(kept[n - 3], kept[n - 2], 1));
                    double newest = kept[n - 1];
                    kept.RemoveRange(n - 3, 3);
                    kept.Add(newest);
                }
            }
        }

        for (int i = 0; i + 1 < kept.Count; i++)
        {
            found.Add(Cycle(kept[i], kept[i + 1], 0.5));
        }

        return found;
    }

    private static List<double> Reversals(IReadOnlyList<double> samples)
    {
        var distinct = samples.Where((v, i) => i == 0 || v != samples[i - 1]).ToList();
        return [.. distinct.Where((v, i) => i == 0 || i == distinct.Count - 1
            || (v > distinct[i - 1]) != (distinct[i + 1] > v))];
    }

    private static RainflowCycle Cycle(double a, double b, double count) => new(Math.Abs(a - b), (a + b) / 2, count);
}
