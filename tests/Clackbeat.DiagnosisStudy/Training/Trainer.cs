namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>Makes the program's data files from the study's tables.</summary>
public static class Trainer
{
    /// <summary>Trains both models.</summary>
    /// <param name="tables">Tables of signs.</param>
    /// <param name="folder">Where the data files go.</param>
    public static void Train(IReadOnlyList<string> tables, string folder)
    {
        Directory.CreateDirectory(folder);
        foreach ((string name, bool changes) in new[] { ("baseline", true), ("site", false) })
        {
            (TrainedModel model, List<Judged> judged) = CrossValidation.Run(StudyRow.Read(tables, changes), changes);
            model.Write(folder, name);
            Console.WriteLine(Scores.Line(name, judged));
        }
    }
}
