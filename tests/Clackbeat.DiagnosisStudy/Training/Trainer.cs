using Clackbeat.DiagnosisStudy.Papers;
using Clackbeat.DiagnosisStudy.Rams;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>Makes the program's data files and the page of results from the study's tables.</summary>
internal static class Trainer
{
    private const string Origin =
        "The models of the diagnosis, made by tests/Clackbeat.DiagnosisStudy (command: train) from virtual rams alone. Each ram judged by a model that had not seen it:";

    /// <summary>Trains both models and judges each ram by one that has never seen it.</summary>
    /// <param name="tables">Tables of signs.</param>
    /// <param name="folder">Where the data files go.</param>
    /// <param name="docs">The documentation folder.</param>
    public static void Train(IReadOnlyList<string> tables, string folder, string docs)
    {
        Directory.CreateDirectory(folder);
        var origin = new List<string> { Origin };
        var all = new Dictionary<string, IReadOnlyList<Judged>>(StringComparer.Ordinal);
        foreach ((string name, bool changes) in new[] { ("baseline", true), ("site", false) })
        {
            List<StudyRow> rows = StudyRow.Read(tables, changes);
            (TrainedModel model, List<Judged> judged) = CrossValidation.Run(rows, changes);
            model.Write(folder, name);
            all[name] = judged;
            string line = Scores.Line(
                $"{name}, {rows.Select(r => r.Ram).Distinct().Count()} rams, {rows.Count} records; rams of usual make", [.. judged.Where(j => StudyRam.IsMixed(j.Row.Ram))]);
            origin.Add(line);
            Console.WriteLine(line);
        }

        File.WriteAllLines(Path.Combine(folder, "origin.txt"), origin);
        ResultPage.Write(all["baseline"], all["site"], docs);
    }
}
