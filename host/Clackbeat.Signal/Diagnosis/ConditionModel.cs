using System.Globalization;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>
/// From features to the probability of each condition: for each condition a sum over small trees of questions, each asking whether
/// a feature lies further to one side of what a well ram shows than so many standard deviations. Questions and answers come from virtual
/// rams, held to what physics lets a feature speak for; how and why is in docs/diagnosis.md.
/// </summary>
internal sealed class ConditionModel
{
    // Each is read when it is first asked for: a short command needs one of them at most.
    private static readonly Lazy<ConditionModel> WithBaseline = new(() => new("baseline", Stage.Read("baseline")));
    private static readonly Lazy<ConditionModel> WithSite = new(() => new("site", null));

    private readonly ZScoreModel _reference;
    private readonly Dictionary<string, Case> _cases;

    private ConditionModel(string name, Stage? stage)
    {
        Stage = stage;
        _reference = ZScoreModel.Read(name);
        _cases = DiagnosisData.Rows($"{name}-conditions.csv", row => (
            row["condition"].ToString(), Number(row["constant"].ToString()), Number(row["slope"].ToString()), Number(row["shift"].ToString())))
            .ToDictionary(r => r.Item1, r => new Case(r.Item2, r.Item3, r.Item4, []), StringComparer.Ordinal);
        foreach ((string condition, string tree) in DiagnosisData.Rows($"{name}-trees.csv", row => (row["condition"].ToString(), row["tree"].ToString())))
        {
            _cases[condition].Trees.Add(FeatureTree.Read(tree));
        }
    }

    /// <summary>For changes against a recording of the same ram when it was well.</summary>
    public static ConditionModel AgainstBaseline => WithBaseline.Value;

    /// <summary>For a single recording against what its site leads to expect.</summary>
    public static ConditionModel AgainstSite => WithSite.Value;

    /// <summary>Begins to read what a judgement will need, on another thread: it is ready when the samples are.</summary>
    /// <param name="byBaseline">Whether it will judge by a baseline.</param>
    public static void ReadAhead(bool byBaseline)
    {
        Lazy<ConditionModel> model = byBaseline ? WithBaseline : WithSite;
        if (!model.IsValueCreated)
        {
            Task.Run(() => model.Value);
        }
    }

    /// <summary>The conditions it was trained for.</summary>
    public IReadOnlyCollection<string> Conditions => _cases.Keys;

    /// <summary>How far a fault has gone; null where nothing can be said of that.</summary>
    public Stage? Stage { get; }

    /// <summary>Sets a record's features against the well ram's.</summary>
    public FeatureScores Score(Comparison record)
    {
        Dictionary<Feature, FeatureDistance> distances = _reference.Of(record);
        return new FeatureScores(
            distances, FeatureTree.Columns(distances.ToDictionary(d => d.Key, d => d.Value.ZScore)),
            Math.Max(_reference.Novelty(record.Features), Stage is null ? 0 : Novelty.OfRate(record.Covariates)));
    }

    /// <summary>Probability of each condition, most probable first.</summary>
    public IReadOnlyList<(string Condition, double Probability)> Judge(FeatureScores scores) =>
        WithoutFault([.. _cases.Select(c => (c.Key, Probability(c.Value, scores)))]);

    /// <summary>
    /// Each condition is judged by itself, and faults may go together. A well ram has none of them, so it is never likelier than that the
    /// likeliest fault is not there.
    /// </summary>
    internal static IReadOnlyList<(string Condition, double Probability)> WithoutFault(IReadOnlyList<(string Condition, double Probability)> alone)
    {
        double fault = alone.Where(c => c.Condition != Diagnosis.Conditions.Healthy).Max(c => c.Probability);
        return [.. alone
            .Select(c => c.Condition == Diagnosis.Conditions.Healthy ? (c.Condition, Math.Min(c.Probability, 1 - fault)) : c)
            .OrderByDescending(c => c.Item2)];
    }

    /// <summary>What speaks for a condition, the strongest first.</summary>
    public IEnumerable<FeatureAttribution> Reasons(string condition, FeatureScores scores)
    {
        double[] attributions = new double[FeatureTree.ColumnCount];
        foreach (FeatureTree tree in _cases[condition].Trees)
        {
            tree.AddAttributions(scores.Columns, attributions);
        }

        return scores.Distances
            .Select(d => new FeatureAttribution(d.Key, d.Value.Change, d.Value.ZScore, attributions[FeatureTree.Column(d.Key, d.Value.ZScore > 0)]))
            .Where(r => r.Weight > 0)
            .OrderByDescending(r => r.Weight);
    }

    /// <summary>The case for a condition, the logarithm of its odds before calibration.</summary>
    public double Sum(string condition, FeatureScores scores) => Sum(_cases[condition], scores);

    /// <summary>Probability of a condition before any record.</summary>
    public double Prior(string condition) => Logistic(_cases[condition].Constant);

    private static double Probability(Case one, FeatureScores scores) =>
        Novelty.Temper(Logistic((one.Slope * Sum(one, scores)) + one.Shift), Logistic(one.Constant), scores.Novelty);

    private static double Sum(Case one, FeatureScores scores) => one.Constant + one.Trees.Sum(t => t.Answer(scores.Columns));

    private static double Logistic(double logOdds) => 1 / (1 + Math.Exp(-logOdds));

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private sealed record Case(double Constant, double Slope, double Shift, List<FeatureTree> Trees);
}

/// <summary>A record's features against a well ram's, as z-scores.</summary>
/// <param name="Distances">How far each feature lies from a well ram's.</param>
/// <param name="Columns">The same, rises and falls apart, as the trees ask for it.</param>
/// <param name="Novelty">Share of the features outside nearly everything the model was made from.</param>
internal sealed record FeatureScores(IReadOnlyDictionary<Feature, FeatureDistance> Distances, double[] Columns, double Novelty);

/// <summary>The attribution to one feature: what it adds to the case for a condition.</summary>
/// <param name="Feature">The feature.</param>
/// <param name="Change">Its distance from a well ram's mean, in its own unit.</param>
/// <param name="ZScore">The same in standard deviations of well rams.</param>
/// <param name="Weight">What it adds to the logarithm of the odds.</param>
internal readonly record struct FeatureAttribution(Feature Feature, double Change, double ZScore, double Weight);
