using System.Globalization;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>
/// From signs to the probability of each condition: for each condition a sum over small trees of questions, each asking whether
/// a sign lies further to one side of what a well ram shows than so many scatters. Questions and answers come from virtual
/// rams, held to what physics lets a sign speak for; how and why is in docs/diagnosis.md.
/// </summary>
internal sealed class ConditionModel
{
    private readonly UsualSigns _usual;
    private readonly Dictionary<string, Case> _cases;

    private ConditionModel(string name, Stage? stage)
    {
        Stage = stage;
        _usual = UsualSigns.Read(name);
        _cases = DiagnosisData.Rows($"{name}-conditions.csv", row => (
            row["condition"].ToString(), Number(row["constant"].ToString()), Number(row["slope"].ToString()), Number(row["shift"].ToString())))
            .ToDictionary(r => r.Item1, r => new Case(r.Item2, r.Item3, r.Item4, []), StringComparer.Ordinal);
        foreach ((string condition, string tree) in DiagnosisData.Rows($"{name}-trees.csv", row => (row["condition"].ToString(), row["tree"].ToString())))
        {
            _cases[condition].Trees.Add(SignTree.Read(tree));
        }
    }

    /// <summary>For changes against a recording of the same ram when it was well.</summary>
    public static ConditionModel AgainstBaseline { get; } = new("baseline", Stage.Read("baseline"));

    /// <summary>For a single recording against what its site leads to expect.</summary>
    public static ConditionModel AgainstSite { get; } = new("site", null);

    /// <summary>How far a fault has gone; null where nothing can be said of that.</summary>
    public Stage? Stage { get; }

    /// <summary>Places a record's signs beside what is usual.</summary>
    /// <param name="signs">Signs of the record, or their changes against the baseline.</param>
    /// <param name="circumstances">Site and recording, or how the recording differs from the baseline's.</param>
    public SignReading Read(IReadOnlyDictionary<Sign, double> signs, IReadOnlyDictionary<Circumstance, double> circumstances)
    {
        Dictionary<Sign, double> distances = _usual.Distances(signs, circumstances);
        return new SignReading(distances, SignTree.Columns(distances), _usual.Strangeness(signs));
    }

    /// <summary>Probability of each condition, most probable first.</summary>
    public IReadOnlyList<(string Condition, double Probability)> Judge(SignReading reading) =>
        [.. _cases.Select(c => (c.Key, Probability(c.Value, reading))).OrderByDescending(c => c.Item2)];

    /// <summary>What speaks for a condition, the strongest first.</summary>
    public IEnumerable<SignReason> Reasons(string condition, SignReading reading)
    {
        var credits = new double[SignTree.ColumnCount];
        foreach (SignTree tree in _cases[condition].Trees)
        {
            tree.Credit(reading.Columns, credits);
        }

        return reading.Distances
            .Select(d => new SignReason(d.Key, _usual.Change(d.Key, d.Value), d.Value, credits[SignTree.Column(d.Key, d.Value > 0)]))
            .Where(r => r.Weight > 0)
            .OrderByDescending(r => r.Weight);
    }

    private static double Probability(Case one, SignReading reading)
    {
        double sum = one.Constant;
        foreach (SignTree tree in one.Trees)
        {
            sum += tree.Answer(reading.Columns);
        }

        return 1 / (1 + Math.Exp(-((one.Slope * sum) + one.Shift)));
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private sealed record Case(double Constant, double Slope, double Shift, List<SignTree> Trees);
}

/// <summary>A record's signs beside what is usual.</summary>
/// <param name="Distances">How far each lies off, in usual scatters.</param>
/// <param name="Columns">The same as the trees ask for it.</param>
/// <param name="Strangeness">Share of the signs outside nearly everything the model was made from.</param>
internal sealed record SignReading(IReadOnlyDictionary<Sign, double> Distances, double[] Columns, double Strangeness);

/// <summary>What one sign adds to the case for a condition.</summary>
/// <param name="Sign">The sign.</param>
/// <param name="Change">Its distance from what a well ram shows, in its own unit.</param>
/// <param name="Distance">The same in usual scatters.</param>
/// <param name="Weight">What it adds to the logarithm of the odds.</param>
internal readonly record struct SignReason(Sign Sign, double Change, double Distance, double Weight);
