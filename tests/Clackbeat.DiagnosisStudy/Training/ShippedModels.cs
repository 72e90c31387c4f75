using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>Judges rams by the models that the program ships; honest for rams that no model was trained on.</summary>
internal static class ShippedModels
{
    /// <summary>Both models, and whether they judge changes.</summary>
    public static IReadOnlyList<(string Name, ConditionModel Model, bool Changes)> All { get; } =
        [("baseline", ConditionModel.AgainstBaseline, true), ("site", ConditionModel.AgainstSite, false)];

    /// <summary>Prints how well they do.</summary>
    /// <param name="tables">Tables of features.</param>
    public static void Judge(IReadOnlyList<string> tables)
    {
        foreach ((string name, ConditionModel model, bool changes) in All)
        {
            Judged[] judged = [.. StudyRow.Read(tables, changes).Where(r => r.IsByFirstBaseline).Select(r => Judge(r, model, changes, null))];
            Console.WriteLine($"{judged.Select(j => j.Row.Ram).Distinct().Count()} rams, {Scores.Line(name, judged, changes)}");
        }
    }

    /// <summary>A record as the program judges it.</summary>
    /// <param name="row">The record.</param>
    /// <param name="model">The model.</param>
    /// <param name="changes">Its features are changes against a baseline.</param>
    /// <param name="calibrations">Calibrations; null takes the model's own.</param>
    public static Judged Judge(StudyRow row, ConditionModel model, bool changes, IReadOnlyDictionary<string, (double Slope, double Shift)>? calibrations)
    {
        FeatureScores scores = model.Score(row.Record);
        Dictionary<string, double> probabilities = calibrations is null
            ? model.Judge(scores).ToDictionary(c => c.Condition, c => c.Probability, StringComparer.Ordinal)
            : calibrations.ToDictionary(c => c.Key, c => Stated(c.Key, c.Value), StringComparer.Ordinal);
        return new Judged(
            row, probabilities, changes ? c => model.Stage!.Of(c, scores.Columns) : null,
            row.Features.Count == 0 || (changes ? scores.Novelty > Novelty.Limit : Diagnoser.IsBeyond(row.PerPeriod, scores.Novelty)));

        double Stated(string condition, (double Slope, double Shift) by) => Novelty.Temper(
            1 / (1 + Math.Exp(-((by.Slope * model.Sum(condition, scores)) + by.Shift))), model.Prior(condition), scores.Novelty);
    }
}
