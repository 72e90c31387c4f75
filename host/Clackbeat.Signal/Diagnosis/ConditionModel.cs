using System.Globalization;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>
/// From signs to the probability of each condition: for each condition one logistic sum over how far every sign lies to
/// either side of what a well ram shows. Far signs count by their logarithm, so that no single one decides. The weights come
/// from virtual rams; how and why is in docs/diagnosis.md, and the data file says which command makes it again.
/// </summary>
internal sealed class ConditionModel
{
    private const string Constant = "(constant)";
    private const string Calibration = "(calibration)";

    private readonly Dictionary<Sign, SignScale> _scales;
    private readonly Dictionary<string, List<SignWeight>> _weights = new(StringComparer.Ordinal);
    private readonly Dictionary<string, double> _constants = new(StringComparer.Ordinal);
    private readonly Dictionary<string, (double Slope, double Shift)> _calibrations = new(StringComparer.Ordinal);

    private ConditionModel(string name)
    {
        _scales = DiagnosisData.Rows($"{name}-scales.csv", row => new SignScale(
            Enum.Parse<Sign>(row["sign"].ToString()), Number(row["centre"].ToString()), Number(row["scale"].ToString()),
            Number(row["low"].ToString()), Number(row["high"].ToString()))).ToDictionary(s => s.Sign);
        foreach ((string condition, string term, double rise, double fall) in DiagnosisData.Rows($"{name}-weights.csv", row =>
            (row["condition"].ToString(), row["sign"].ToString(), Number(row["rise"].ToString()), Number(row["fall"].ToString()))))
        {
            Take(condition, term, rise, fall);
        }
    }

    /// <summary>For changes against a recording of the same ram when it was well.</summary>
    public static ConditionModel AgainstBaseline { get; } = new("baseline");

    /// <summary>For a single recording against what the site file leads to expect.</summary>
    public static ConditionModel AgainstSite { get; } = new("site");

    /// <summary>Probability of each condition, most probable first.</summary>
    /// <param name="signs">Signs of the record, or their changes against the baseline.</param>
    public IReadOnlyList<(string Condition, double Probability)> Judge(IReadOnlyDictionary<Sign, double> signs) =>
        [.. _weights.Keys.Select(c => (c, Probability(c, signs))).OrderByDescending(c => c.Item2)];

    /// <summary>What speaks for a condition, the strongest first.</summary>
    public IEnumerable<SignReason> Reasons(string condition, IReadOnlyDictionary<Sign, double> signs) => _weights[condition]
        .Select(w => Reason(w, signs))
        .Where(r => r.Weight > 0)
        .OrderByDescending(r => r.Weight);

    /// <summary>How far a sign lies from what a well ram shows, in usual scatters; 0 for a sign that is missing.</summary>
    public double Distance(Sign sign, IReadOnlyDictionary<Sign, double> signs) =>
        signs.TryGetValue(sign, out double value) && _scales.TryGetValue(sign, out SignScale scale) ? (value - scale.Centre) / scale.Scale : 0;

    /// <summary>Share of the signs that lie outside everything the model was made from.</summary>
    public double Strangeness(IReadOnlyDictionary<Sign, double> signs) => signs.Count == 0 ? 1
        : signs.Count(s => _scales.TryGetValue(s.Key, out SignScale scale) && (s.Value < scale.Low || s.Value > scale.High)) / (double)signs.Count;

    /// <summary>How a sign that is <paramref name="distance"/> scatters off counts.</summary>
    internal static double Strength(double distance) => Math.Log(1 + (Math.Max(0, distance) / 1.5));

    private double Probability(string condition, IReadOnlyDictionary<Sign, double> signs)
    {
        double sum = _constants.GetValueOrDefault(condition);
        foreach (SignWeight weight in _weights[condition])
        {
            sum += Reason(weight, signs).Weight;
        }

        (double slope, double shift) = _calibrations.GetValueOrDefault(condition, (1, 0));
        return 1 / (1 + Math.Exp(-((slope * sum) + shift)));
    }

    private SignReason Reason(SignWeight weight, IReadOnlyDictionary<Sign, double> signs)
    {
        double distance = Distance(weight.Sign, signs);
        double counted = (weight.Rise * Strength(distance)) + (weight.Fall * Strength(-distance));
        double change = distance * _scales[weight.Sign].Scale;
        return new SignReason(weight.Sign, change, distance, counted);
    }

    private void Take(string condition, string term, double rise, double fall)
    {
        if (term == Constant)
        {
            _constants[condition] = rise;
            _weights.TryAdd(condition, []);
        }
        else if (term == Calibration)
        {
            _calibrations[condition] = (rise, fall);
        }
        else
        {
            if (!_weights.TryGetValue(condition, out List<SignWeight>? list))
            {
                _weights[condition] = list = [];
            }

            list.Add(new SignWeight(Enum.Parse<Sign>(term), rise, fall));
        }
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private readonly record struct SignScale(Sign Sign, double Centre, double Scale, double Low, double High);

    private readonly record struct SignWeight(Sign Sign, double Rise, double Fall);
}

/// <summary>What one sign adds to the case for a condition.</summary>
/// <param name="Sign">The sign.</param>
/// <param name="Change">Its distance from what a well ram shows, in its own unit.</param>
/// <param name="Distance">The same in usual scatters.</param>
/// <param name="Weight">What it adds to the logarithm of the odds.</param>
internal readonly record struct SignReason(Sign Sign, double Change, double Distance, double Weight);
