namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>Judgements of similar stated probability.</summary>
/// <param name="Stated">Mean of what was stated.</param>
/// <param name="True">Share that was true.</param>
/// <param name="Error">Standard error of that share.</param>
/// <param name="Count">Number of judgements.</param>
internal readonly record struct Bin(double Stated, double True, double Error, int Count);

/// <summary>
/// Compares stated probabilities with what was so. Well rams count as in training, for the probabilities are stated for a
/// keeper, most of whose recordings are of a well ram, not for a study three quarters of whose rams are ill.
/// </summary>
internal static class Calibration
{
    private const int Count = 10;
    private const int LeastInBin = 25;

    /// <summary>All judgements of all conditions by their stated probability.</summary>
    public static IEnumerable<Bin> Bins(IEnumerable<Judged> judged, bool changes) => Bins(judged
        .Where(j => j.IsByModel && j.Row.IsOfTheBeat)
        .SelectMany(j => j.Probabilities.Select(c => (c.Value, j.Row.Has(c.Key), TrainingSettings.Of(changes).WeightOf(j.Row)))));

    /// <summary>What was named first by its stated probability.</summary>
    public static IEnumerable<Bin> FirstBins(IEnumerable<Judged> judged, bool changes) => Bins(First(judged, changes));

    /// <summary>
    /// Expected calibration error of what was named first: mean distance between the probability stated and the share that was true, over
    /// ten bins (M. P. Naeini, G. F. Cooper, M. Hauskrecht, AAAI 2015).
    /// </summary>
    public static double Error(IEnumerable<Judged> judged, bool changes)
    {
        (double Stated, bool True, double Weight)[] all = [.. First(judged, changes)];
        double weight = all.Sum(a => a.Weight);
        return all.GroupBy(a => BinOf(a.Stated)).Sum(g => Math.Abs(g.Sum(a => a.Weight * (a.Stated - (a.True ? 1 : 0))))) / weight;
    }

    private static IEnumerable<(double Stated, bool True, double Weight)> First(IEnumerable<Judged> judged, bool changes) => judged
        .Where(j => j.IsByModel && j.Row.IsOfTheBeat)
        .Select(j => (j.Stated, j.Row.Has(j.Named[0]), TrainingSettings.Of(changes).WeightOf(j.Row)));

    private static int BinOf(double stated) => Math.Min(Count - 1, (int)(stated * Count));

    private static IEnumerable<Bin> Bins(IEnumerable<(double Stated, bool True, double Weight)> all) => all
        .GroupBy(a => BinOf(a.Stated))
        .OrderBy(g => g.Key)
        .Where(g => g.Count() >= LeastInBin)
        .Select(g =>
        {
            double weight = g.Sum(b => b.Weight);
            double share = g.Sum(b => b.True ? b.Weight : 0) / weight;
            double effective = weight * weight / g.Sum(b => b.Weight * b.Weight);
            return new Bin(g.Sum(b => b.Weight * b.Stated) / weight, share, Math.Sqrt(share * (1 - share) / effective), g.Count());
        });
}
