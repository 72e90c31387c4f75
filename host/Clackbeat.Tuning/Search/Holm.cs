namespace Clackbeat.Tuning.Search;

/// <summary>Holm's step-down correction of many chances at once (Holm 1979, Scandinavian Journal of Statistics 6, 65–70).</summary>
public static class Holm
{
    /// <summary>The corrected chances, in the order given.</summary>
    /// <param name="chances">Chances of each comparison alone, 0 to 1.</param>
    public static double[] Adjust(IReadOnlyList<double> chances)
    {
        ArgumentNullException.ThrowIfNull(chances);
        int[] order = [.. Enumerable.Range(0, chances.Count).OrderBy(i => chances[i])];
        double[] adjusted = new double[chances.Count];
        double running = 0;
        for (int i = 0; i < order.Length; i++)
        {
            running = Math.Max(running, Math.Min(1, (order.Length - i) * chances[order[i]]));
            adjusted[order[i]] = running;
        }

        return adjusted;
    }
}
