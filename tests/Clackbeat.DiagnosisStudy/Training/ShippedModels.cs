using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>Judges rams by the models that the program ships; honest for rams that no model was trained on.</summary>
internal static class ShippedModels
{
    /// <summary>Prints how well they do.</summary>
    /// <param name="tables">Tables of signs.</param>
    public static void Judge(IReadOnlyList<string> tables)
    {
        foreach ((string name, ConditionModel model, bool changes) in new[]
        {
            ("with a baseline", ConditionModel.AgainstBaseline, true), ("by the site file alone", ConditionModel.AgainstSite, false),
        })
        {
            List<StudyRow> rows = StudyRow.Read(tables, changes);
            Judged[] judged = [.. rows.Select(r => new Judged(
                r,
                model.Judge(model.Read(r.Signs, r.Circumstances)).ToDictionary(c => c.Condition, c => c.Probability),
                null,
                r.Signs.Count == 0 || (!changes && Diagnoser.IsBeyond(r.PerPeriod, model.Read(r.Signs, r.Circumstances).Strangeness))))];
            Console.WriteLine($"{rows.Select(r => r.Ram).Distinct().Count()} rams, {Scores.Line(name, judged)}");
        }
    }
}
