namespace Clackbeat.Season.Trend;

/// <summary>What a stretch between two changes looks like.</summary>
public enum StretchModel
{
    /// <summary>One level.</summary>
    Level,

    /// <summary>A level and a drift: what wear does to a figure.</summary>
    Line,
}

/// <summary>A change.</summary>
/// <param name="At">First day (or other abscissa) of the new stretch.</param>
/// <param name="Earliest">Earliest first day that fits about as well: within 3.84 of the log-likelihood ratio.</param>
/// <param name="Latest">Latest such day.</param>
/// <param name="Before">Value where the old stretch ends.</param>
/// <param name="After">Value where the new stretch begins.</param>
public readonly record struct ChangePoint(double At, double Earliest, double Latest, double Before, double After);

/// <summary>
/// Changes of a series by penalised least squares, found exactly with pruning: PELT (R. Killick, P. Fearnhead and I. A. Eckley,
/// J. Amer. Stat. Assoc. 107 (2012) 1590, doi:10.1080/01621459.2012.737745). The price of a change is Schwarz's, (k + 1) ln n
/// for k numbers a stretch, times the noise's long-run variance σ²(1 + ρ)/(1 − ρ), since noise with a memory wanders
/// (M. Lavielle and É. Moulines, J. Time Series Analysis 21 (2000) 33, doi:10.1111/1467-9892.00172). Of lines, only steps that
/// no slow bend explains are kept.
/// </summary>
public static class ChangePoints
{
    /// <summary>Fewest points of a stretch: what lasts less is an event and no change.</summary>
    public const int LeastPoints = 3;

    // 95 % of the chi-squared distribution with one degree of freedom.
    private const double Chi95 = 3.841;

    /// <summary>Changes of a daily series.</summary>
    /// <param name="days">The days, oldest first.</param>
    /// <param name="model">What a stretch looks like.</param>
    public static IReadOnlyList<ChangePoint> Find(IReadOnlyList<DayValue> days, StretchModel model = StretchModel.Line) =>
        Find([.. days.Select(d => d.X)], [.. days.Select(d => d.Value)], model);

    /// <summary>Changes of any series.</summary>
    /// <param name="x">Abscissae, rising.</param>
    /// <param name="y">Ordinates.</param>
    /// <param name="model">What a stretch looks like.</param>
    public static IReadOnlyList<ChangePoint> Find(double[] x, double[] y, StretchModel model)
    {
        if (y.Length < 2 * LeastPoints)
        {
            return [];
        }

        (double sigma, double rho) = SerialCorrelation.Robust(y);
        if (sigma == 0)
        {
            return [];
        }

        double variance = sigma * sigma * SerialCorrelation.Factor(rho);
        var cost = new StretchCost(x, y, model);
        double penalty = ((model == StretchModel.Level ? 1 : 2) + 1) * Math.Log(y.Length) * variance;
        int[] starts = Prune(cost, y.Length, penalty);
        if (model == StretchModel.Line)
        {
            starts = new StepTest(x, y).Choose(starts, VarianceAbout(cost, x, y, starts));
        }

        return [.. Enumerable.Range(0, starts.Length).Select(i => Describe(cost, x, starts, i, variance))];
    }

    // With the stretches known, what is left about their lines tells the noise and its memory far better than differences do.
    private static double VarianceAbout(StretchCost cost, double[] x, double[] y, int[] starts)
    {
        int[] ends = [0, .. starts, y.Length];
        double[] rests = [.. Enumerable.Range(0, ends.Length - 1).SelectMany(s =>
            Enumerable.Range(ends[s], ends[s + 1] - ends[s]).Select(i => y[i] - cost.ValueAt(ends[s], ends[s + 1], x[i])))];
        int free = Math.Max(1, y.Length - (2 * (ends.Length - 1)));
        return rests.Sum(r => r * r) / free * SerialCorrelation.Inflation(rests);
    }

    /// <summary>First indices of all stretches but the first.</summary>
    internal static int[] Prune(StretchCost cost, int count, double penalty)
    {
        double[] best = new double[count + 1];
        int[] previous = new int[count + 1];
        Array.Fill(best, double.PositiveInfinity);
        best[0] = -penalty;
        int[] retires = new int[count + 1];
        Array.Fill(retires, int.MaxValue);
        var candidates = new List<int> { 0 };
        for (int end = LeastPoints; end <= count; end++)
        {
            foreach (int start in candidates)
            {
                double value = best[start] + cost.Of(start, end) + penalty;
                if (value < best[end])
                {
                    (best[end], previous[end]) = (value, start);
                }
            }

            // A start that is already worse without a further change loses to a change here, from when on a stretch that
            // begins here is long enough; until then it stays.
            foreach (int start in candidates.Where(s => retires[s] == int.MaxValue && best[s] + cost.Of(s, end) > best[end]))
            {
                retires[start] = end + LeastPoints;
            }

            candidates.RemoveAll(start => retires[start] <= end + 1);
            int next = end - LeastPoints + 1;
            if (next >= LeastPoints)
            {
                candidates.Add(next);
            }
        }

        var starts = new Stack<int>();
        for (int end = count; previous[end] > 0; end = previous[end])
        {
            starts.Push(previous[end]);
        }

        return [.. starts];
    }

    private static ChangePoint Describe(StretchCost cost, double[] x, int[] starts, int i, double variance)
    {
        int from = i == 0 ? 0 : starts[i - 1];
        int to = i + 1 < starts.Length ? starts[i + 1] : x.Length;
        double Both(int at) => cost.Of(from, at) + cost.Of(at, to);
        double least = Both(starts[i]);
        int[] near = [.. Enumerable.Range(from + LeastPoints, to - from - (2 * LeastPoints) + 1).Where(at => Both(at) - least <= Chi95 * variance)];
        return new ChangePoint(
            x[starts[i]], x[near[0]], x[near[^1]], cost.ValueAt(from, starts[i], x[starts[i] - 1]), cost.ValueAt(starts[i], to, x[starts[i]]));
    }
}
