using Clackbeat.DiagnosisStudy.Rams;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>Makes the program's data files from the study's tables.</summary>
internal static class Trainer
{
    private const string Origin =
        "The models of the diagnosis, made by tests/Clackbeat.DiagnosisStudy (command: train) from virtual rams alone. Each ram judged by a model that had not seen it:";

    /// <summary>Trains both models.</summary>
    /// <param name="tables">Tables of signs.</param>
    /// <param name="folder">Where the data files go.</param>
    public static void Train(IReadOnlyList<string> tables, string folder)
    {
        Directory.CreateDirectory(folder);
        var origin = new List<string> { Origin };
        foreach ((string name, bool changes) in new[] { ("baseline", true), ("site", false) })
        {
            if (Environment.GetEnvironmentVariable("X_ONLY") is { } only && only != name) { continue; }
            List<StudyRow> rows = StudyRow.Read(tables, changes);
            (TrainedModel model, List<Judged> judged) = CrossValidation.Run(rows, changes);
            model.Write(folder, name);
            string line = $"{rows.Select(r => r.Ram).Distinct().Count()} rams, {rows.Count} records; {Scores.Line(name, judged)}";
            Console.WriteLine(Scores.Line("usual make, " + name, [.. judged.Where(j => StudyRam.IsMixed(j.Row.Ram))]));
            origin.Add(line);
            Console.WriteLine(line);
        }

        File.WriteAllLines(Path.Combine(folder, "origin.txt"), origin);
    }
}
