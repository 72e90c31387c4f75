using System.Globalization;
using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>A model as trained: the features of well rams, and the trees and the calibration of each condition.</summary>
internal sealed class TrainedModel
{
    private readonly ZScoreModel _reference;
    private readonly Dictionary<string, (double Constant, List<FeatureTree> Trees)> _cases = new(StringComparer.Ordinal);

    private Stage? _stage;

    private TrainedModel(ZScoreModel reference) => _reference = reference;

    /// <summary>Slope and shift that turn a condition's sum into honest odds.</summary>
    public Dictionary<string, (double Slope, double Shift)> Calibrations { get; } = new(StringComparer.Ordinal);

    /// <summary>What it is trained for: the conditions of which its rows held any.</summary>
    public IEnumerable<string> Trained => Conditions.Beating.Where(_cases.ContainsKey);

    /// <summary>Trains on rows; a condition that none of them has is left out.</summary>
    /// <param name="rows">The rows.</param>
    /// <param name="changes">The features are changes: a well ram's are 0 by definition.</param>
    /// <param name="settings">How.</param>
    /// <param name="earlier">Trees to go on from; null begins afresh.</param>
    public static TrainedModel Train(IReadOnlyList<StudyRow> rows, bool changes, TrainingSettings settings, EarlierTrees? earlier)
    {
        var model = new TrainedModel(ZScoreFit.Of(rows, changes));
        double[][] columns = [.. rows.Select(model.Columns)];
        model._stage = changes ? StageFit.Of(rows, columns) : null;
        double[] counts = [.. rows.Select(settings.WeightOf)];
        foreach ((string condition, double constant, List<FeatureTree> trees) in Conditions.Beating.Where(c => rows.Any(r => r.Has(c))).AsParallel().Select(condition =>
        {
            bool[] yes = [.. rows.Select(r => r.Has(condition))];
            bool[] may = [.. Expectations.Used.SelectMany(s => new[] { true, false }.Select(rise => Expectations.MaySpeakFor(condition, s, rise)))];
            double share = yes.Zip(counts, (y, c) => y ? c : 0).Sum() / counts.Sum();
            (double constant, List<FeatureTree> before) = earlier?.Of(condition) ?? (Math.Log(share / (1 - share)), []);
            double[] starts = [.. columns.Select(c => constant + before.Sum(t => t.Answer(c)))];
            return (condition, constant, (List<FeatureTree>)[.. before, .. BoostedTrees.Fit(columns, yes, counts, starts, may, settings.Trees)]);
        }))
        {
            model._cases[condition] = (constant, trees);
        }

        return model;
    }

    /// <summary>Estimated severity of a condition, given that it is there.</summary>
    public double StageOf(string condition, StudyRow row) => _stage!.Of(condition, Columns(row));

    /// <summary>The logarithm of the odds of each condition, uncalibrated.</summary>
    public Dictionary<string, double> Sums(StudyRow row)
    {
        double[] columns = Columns(row);
        return _cases.ToDictionary(c => c.Key, c => c.Value.Constant + c.Value.Trees.Sum(t => t.Answer(columns)), StringComparer.Ordinal);
    }

    private double Stated(StudyRow row, string condition, double sum, (double Slope, double Shift) by) => Novelty.Temper(
        Logistic((by.Slope * sum) + by.Shift), Logistic(_cases[condition].Constant), _reference.Novelty(row.Features));

    /// <summary>A record as the program would judge it.</summary>
    /// <param name="row">The record.</param>
    /// <param name="changes">Its features are changes against a baseline.</param>
    /// <param name="calibrations">Calibrations; null takes the model's own.</param>
    public Judged Judge(StudyRow row, bool changes, IReadOnlyDictionary<string, (double Slope, double Shift)>? calibrations = null)
    {
        Dictionary<string, double> sums = row.Features.Count > 0 ? Sums(row) : [];
        return new Judged(
            row, sums.ToDictionary(s => s.Key, s => Stated(row, s.Key, s.Value, (calibrations ?? Calibrations)[s.Key])),
            changes ? c => StageOf(c, row) : null, row.Features.Count == 0 || IsBeyond(row, changes));
    }

    /// <summary>Writes the data files the program ships.</summary>
    public void Write(string folder, string name)
    {
        string N(double value) => value.ToString("0.#####", CultureInfo.InvariantCulture);
        _reference.Write(folder, name);
        _stage?.Write(folder, name);
        File.WriteAllLines(Path.Combine(folder, $"{name}-conditions.csv"),
        [
            "condition,constant,slope,shift",
            .. Trained.Select(c => $"{c},{N(_cases[c].Constant)},{N(Calibrations[c].Slope)},{N(Calibrations[c].Shift)}"),
        ]);
        File.WriteAllLines(Path.Combine(folder, $"{name}-trees.csv"),
            ["condition,tree", .. Trained.SelectMany(c => _cases[c].Trees.Select(t => $"{c},{t.Write()}"))]);
    }

    // Whether the program would say nothing of such a record.
    private bool IsBeyond(StudyRow row, bool changes) => changes
        ? _reference.Novelty(row.Features) > Novelty.Limit
        : Diagnoser.IsBeyond(row.PerPeriod, _reference.Novelty(row.Features));

    private static double Logistic(double logOdds) => 1 / (1 + Math.Exp(-logOdds));

    private double[] Columns(StudyRow row) => FeatureTree.Columns(_reference.Of(row.Record).ToDictionary(d => d.Key, d => d.Value.ZScore));
}
