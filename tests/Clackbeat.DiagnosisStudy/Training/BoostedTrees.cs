using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>How trees are grown.</summary>
/// <param name="Trees">Number of trees.</param>
/// <param name="Depth">Questions from root to leaf.</param>
/// <param name="Rate">Share of each tree's step that is taken.</param>
/// <param name="LeastRows">Least weight of rows in a leaf.</param>
/// <param name="Ridge">Penalty on leaf values.</param>
/// <param name="RowShare">Share of the rows each tree sees.</param>
/// <param name="ColumnShare">Share of the columns each tree sees.</param>
public sealed record TreeSettings(
    int Trees, int Depth, double Rate, double LeastRows, double Ridge, double RowShare, double ColumnShare);

/// <summary>
/// Gradient boosting of shallow trees on the logistic loss with second-order steps (J. H. Friedman, Ann. Statist. 29, 2001,
/// doi:10.1214/aos/1013203451; T. Chen, C. Guestrin, KDD 2016, doi:10.1145/2939672.2939785, whose bounds keep a column that
/// may only speak against from ever speaking for). Deterministic for a seed.
/// </summary>
internal sealed class BoostedTrees
{
    private const int Bins = 48;

    private readonly TreeSettings _settings;
    private readonly double[][] _edges;
    private readonly byte[][] _binned;
    private readonly bool[] _mayRise;
    private readonly Random _random = new(20);

    private BoostedTrees(IReadOnlyList<double[]> rows, IReadOnlyList<bool> mayRise, TreeSettings settings)
    {
        _settings = settings;
        _mayRise = [.. mayRise];
        _edges = [.. Enumerable.Range(0, mayRise.Count).Select(c => Edges(rows, c))];
        _binned = [.. Enumerable.Range(0, mayRise.Count).Select(c => rows.Select(r => BinOf(_edges[c], r[c])).ToArray())];
    }

    /// <summary>Grows the trees.</summary>
    /// <param name="rows">Inputs.</param>
    /// <param name="yes">The answers.</param>
    /// <param name="counts">How much each row counts.</param>
    /// <param name="starts">The sum each starts from.</param>
    /// <param name="mayRise">For each column: may a larger value speak for?</param>
    /// <param name="settings">How.</param>
    public static List<FeatureTree> Fit(
        IReadOnlyList<double[]> rows, IReadOnlyList<bool> yes, IReadOnlyList<double> counts, IReadOnlyList<double> starts,
        IReadOnlyList<bool> mayRise, TreeSettings settings)
    {
        var grower = new BoostedTrees(rows, mayRise, settings);
        double[] sums = [.. starts];
        var trees = new List<FeatureTree>();
        double[] gradient = new double[rows.Count];
        double[] curvature = new double[rows.Count];
        for (int t = 0; t < settings.Trees; t++)
        {
            for (int i = 0; i < sums.Length; i++)
            {
                double p = 1 / (1 + Math.Exp(-sums[i]));
                gradient[i] = counts[i] * ((yes[i] ? 1 : 0) - p);
                curvature[i] = counts[i] * p * (1 - p);
            }

            var tree = new FeatureTree(grower.Grow(gradient, curvature));
            trees.Add(tree);
            for (int i = 0; i < sums.Length; i++)
            {
                sums[i] += tree.Answer(rows[i]);
            }
        }

        return trees;
    }

    private TreeNode[] Grow(double[] gradient, double[] curvature)
    {
        int nodes = (1 << (_settings.Depth + 1)) - 1;
        var tree = new TreeNode[nodes];
        int[] rows = [.. Enumerable.Range(0, gradient.Length).Where(_ => _random.NextDouble() < _settings.RowShare)];
        int[] columns = [.. Enumerable.Range(0, _edges.Length).Where(c => _edges[c].Length > 0 && _random.NextDouble() < _settings.ColumnShare)];
        Split(tree, 0, 0, rows, columns, gradient, curvature, double.NegativeInfinity, double.PositiveInfinity);
        return tree;
    }

    private void Split(TreeNode[] tree, int at, int depth, int[] rows, int[] columns, double[] gradient, double[] curvature, double low, double high)
    {
        (double g, double h) = (0, 0);
        foreach (int i in rows)
        {
            g += gradient[i];
            h += curvature[i];
        }

        double value = Math.Clamp(g / (h + _settings.Ridge), low, high);
        tree[at] = new TreeNode(-1, 0, _settings.Rate * value);
        if (depth == _settings.Depth || rows.Length < 2 * _settings.LeastRows)
        {
            return;
        }

        Cut best = default;
        foreach (int column in columns)
        {
            Cut cut = BestCut(column, rows, gradient, curvature, g, h, low, high);
            best = cut.Gain > best.Gain ? cut : best;
        }

        if (best.Gain <= 1e-6)
        {
            return;
        }

        tree[at] = new TreeNode(best.Column, _edges[best.Column][best.Bin], _settings.Rate * value);
        byte[] bins = _binned[best.Column];
        int[] below = [.. rows.Where(i => bins[i] <= best.Bin)];
        int[] above = [.. rows.Where(i => bins[i] > best.Bin)];

        // A column that may not speak for: nothing under its upper branch may exceed anything under its lower one.
        double middle = 0.5 * (best.Below + best.Above);
        bool held = !_mayRise[best.Column];
        Split(tree, (2 * at) + 1, depth + 1, below, columns, gradient, curvature, held ? Math.Max(low, middle) : low, high);
        Split(tree, (2 * at) + 2, depth + 1, above, columns, gradient, curvature, low, held ? Math.Min(high, middle) : high);
    }

    private Cut BestCut(int column, int[] rows, double[] gradient, double[] curvature, double g, double h, double low, double high)
    {
        Span<double> gs = stackalloc double[Bins + 1];
        Span<double> hs = stackalloc double[Bins + 1];
        Span<int> counts = stackalloc int[Bins + 1];
        gs.Clear();
        hs.Clear();
        counts.Clear();
        byte[] bins = _binned[column];
        foreach (int i in rows)
        {
            gs[bins[i]] += gradient[i];
            hs[bins[i]] += curvature[i];
            counts[bins[i]]++;
        }

        double whole = Score(g, h, Math.Clamp(g / (h + _settings.Ridge), low, high));
        Cut best = default;
        (double gl, double hl, int nl) = (0, 0, 0);
        for (int bin = 0; bin < _edges[column].Length; bin++)
        {
            (gl, hl, nl) = (gl + gs[bin], hl + hs[bin], nl + counts[bin]);
            if (nl < _settings.LeastRows || rows.Length - nl < _settings.LeastRows)
            {
                continue;
            }

            double below = Math.Clamp(gl / (hl + _settings.Ridge), low, high);
            double above = Math.Clamp((g - gl) / (h - hl + _settings.Ridge), low, high);
            double gain = Score(gl, hl, below) + Score(g - gl, h - hl, above) - whole;
            if (gain > best.Gain && (_mayRise[column] || above <= below))
            {
                best = new Cut(column, bin, gain, below, above);
            }
        }

        return best;
    }

    private double Score(double g, double h, double value) => (g * value) - (0.5 * (h + _settings.Ridge) * value * value);

    private static double[] Edges(IReadOnlyList<double[]> rows, int column)
    {
        double[] sorted = [.. rows.Select(r => r[column]).Where(v => v > 0).Order()];
        return sorted.Length == 0 ? [] : [.. Enumerable.Range(0, Bins - 1).Select(b => b == 0 ? 0 : sorted[b * sorted.Length / (Bins - 1)]).Distinct().Order()];
    }

    private static byte BinOf(double[] edges, double value)
    {
        int place = Array.BinarySearch(edges, value);
        return (byte)(place < 0 ? ~place : place);
    }

    private readonly record struct Cut(int Column, int Bin, double Gain, double Below, double Above);
}
