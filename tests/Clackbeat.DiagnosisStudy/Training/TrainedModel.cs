using System.Globalization;
using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>A model as trained: what is usual, and the trees and the calibration of each condition.</summary>
internal sealed class TrainedModel
{
    // Most recordings are of well rams, while of the study's only one in four is; a false alarm costs a walk to the ram. Chosen so
    // that, of well rams kept aside, about so many are called ill as the docs say.
    private const double WellCountsAgainstBaseline = 2.5;
    private static readonly double WellCountsAgainstSite = double.Parse(Environment.GetEnvironmentVariable("X_WELL") ?? "3", CultureInfo.InvariantCulture);

    // Chosen by cross-validation over rams: finer steps, deeper or more trees gain nothing that could be told from chance.
    private static double X(string n, double d) => double.Parse(Environment.GetEnvironmentVariable(n) ?? d.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
    private static readonly TreeSettings Settings = new(Trees: (int)X("X_TREES", 160), Depth: (int)X("X_DEPTH", 3), Rate: X("X_RATE", 0.07), LeastRows: X("X_LEAST", 12), Ridge: X("X_RIDGE", 4), RowShare: 0.7, ColumnShare: 0.5);

    private readonly UsualSigns _usual;
    private readonly Dictionary<string, (double Constant, List<SignTree> Trees)> _cases = new(StringComparer.Ordinal);

    private Stage? _stage;

    private TrainedModel(UsualSigns usual) => _usual = usual;

    /// <summary>Slope and shift that turn a condition's sum into honest odds.</summary>
    public Dictionary<string, (double Slope, double Shift)> Calibrations { get; } = new(StringComparer.Ordinal);

    /// <summary>Trains on rows.</summary>
    /// <param name="rows">The rows.</param>
    /// <param name="changes">The signs are changes: a well ram's are 0 by definition.</param>
    public static TrainedModel Train(IReadOnlyList<StudyRow> rows, bool changes)
    {
        var model = new TrainedModel(UsualFit.Of(rows, changes));
        double[][] columns = [.. rows.Select(model.Columns)];
        model._stage = changes ? StageFit.Of(rows, columns) : null;
        double[] counts = [.. rows.Select(r => WeightOf(r, changes))];
        foreach ((string condition, double constant, List<SignTree> trees) in Conditions.Beating.AsParallel().Select(condition =>
        {
            bool[] yes = [.. rows.Select(r => r.Has(condition))];
            bool[] may = [.. Expectations.Used.SelectMany(s => new[] { true, false }.Select(rise => (X("X_FREE", 0) > 0 || Expectations.MaySpeakFor(condition, s, rise))))];
            double share = yes.Zip(counts, (y, c) => y ? c : 0).Sum() / counts.Sum();
            double constant = Math.Log(share / (1 - share));
            return (condition, constant, BoostedTrees.Fit(columns, yes, counts, constant, may, Settings));
        }))
        {
            model._cases[condition] = (constant, trees);
        }

        return model;
    }

    /// <summary>Estimated severity of a condition, given that it is there.</summary>
    public double StageOf(string condition, StudyRow row) => _stage!.Of(condition, Columns(row));

    /// <summary>How much a row counts.</summary>
    public static double WeightOf(StudyRow row, bool changes) => row.Conditions.Count > 0 ? 1
        : changes ? WellCountsAgainstBaseline : WellCountsAgainstSite;

    /// <summary>The logarithm of the odds of each condition, uncalibrated.</summary>
    public Dictionary<string, double> Sums(StudyRow row)
    {
        double[] columns = Columns(row);
        return _cases.ToDictionary(c => c.Key, c => c.Value.Constant + c.Value.Trees.Sum(t => t.Answer(columns)), StringComparer.Ordinal);
    }

    /// <summary>Writes the data files the program ships.</summary>
    public void Write(string folder, string name)
    {
        string N(double value) => value.ToString("0.#####", CultureInfo.InvariantCulture);
        _usual.Write(folder, name);
        _stage?.Write(folder, name);
        File.WriteAllLines(Path.Combine(folder, $"{name}-conditions.csv"),
        [
            "condition,constant,slope,shift",
            .. Conditions.Beating.Select(c => $"{c},{N(_cases[c].Constant)},{N(Calibrations[c].Slope)},{N(Calibrations[c].Shift)}"),
        ]);
        File.WriteAllLines(Path.Combine(folder, $"{name}-trees.csv"),
            ["condition,tree", .. Conditions.Beating.SelectMany(c => _cases[c].Trees.Select(t => $"{c},{t.Write()}"))]);
    }

    /// <summary>Whether the program would say nothing of such a record when it has no baseline.</summary>
    public bool IsBeyond(StudyRow row) => Diagnoser.IsBeyond(row.PerPeriod, _usual.Strangeness(row.Signs));

    private double[] Columns(StudyRow row) => SignTree.Columns(_usual.Distances(row.Signs, row.Circumstances));
}
