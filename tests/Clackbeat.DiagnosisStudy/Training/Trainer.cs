using Clackbeat.DiagnosisStudy.Papers;
using Clackbeat.DiagnosisStudy.Rams;
using Clackbeat.VirtualRam.Field;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>Makes the program's data files and the page of results from the study's tables.</summary>
internal static class Trainer
{
    private const string Origin =
        "The models of the diagnosis, made by tests/Clackbeat.DiagnosisStudy (command: train) from virtual rams alone. Judged are rams kept aside:";

    /// <summary>Trains both models on the rams to choose by; judges the rams to report on, once, by the final models.</summary>
    /// <param name="tables">Tables of features.</param>
    /// <param name="folder">Where the data files go.</param>
    /// <param name="onto">Folder of the data files of an earlier study to go on from; null begins afresh.</param>
    /// <param name="docs">The documentation folder.</param>
    public static void Train(IReadOnlyList<string> tables, string folder, string? onto, string docs)
    {
        Directory.CreateDirectory(folder);
        var origin = new List<string> { Origin };
        var reported = new Dictionary<string, IReadOnlyList<Judged>>(StringComparer.Ordinal);
        var trained = new List<string>();
        foreach ((string name, bool changes) in new[] { ("baseline", true), ("site", false) })
        {
            List<StudyRow> rows = StudyRow.Read(tables, changes);
            List<StudyRow> choosing = Of(rows, FieldSet.Choosing);
            (TrainedModel model, List<Judged> _) = CrossValidation.Run(choosing, changes, TrainingSettings.Of(changes), Earlier(onto, name));
            model.Write(folder, name);
            reported[name] = [.. Of(rows, FieldSet.Reporting).Where(r => r.IsByFirstBaseline).Select(r => model.Judge(r, changes))];
            trained = [.. choosing.Select(r => r.Ram).Distinct()];
            origin.Add($"{name}, trained on {trained.Count} rams, {choosing.Count} records");
            origin.AddRange(Lines(name, reported[name]));
        }

        origin.ForEach(Console.WriteLine);
        File.WriteAllLines(Path.Combine(folder, "origin.txt"), origin);
        ResultPage.Write(
            reported["baseline"], reported["site"], $"{trained.Count(r => !StudyRam.IsElastic(r))} real and {trained.Count(StudyRam.IsElastic)} elastic rams", docs);
    }

    /// <summary>How the settings do by cross-validation over the rams to choose by; what chooses settings may look at no others.</summary>
    /// <param name="tables">Tables of features.</param>
    /// <param name="onto">Folder of the data files of an earlier study to go on from; null begins afresh.</param>
    /// <param name="change">Makes the settings to try from the usual ones.</param>
    public static void Choose(IReadOnlyList<string> tables, string? onto, Func<TrainingSettings, TrainingSettings> change)
    {
        foreach ((string name, bool changes) in new[] { ("baseline", true), ("site", false) })
        {
            List<Judged> judged = CrossValidation.Run(Of(StudyRow.Read(tables, changes), FieldSet.Choosing), changes, change(TrainingSettings.Of(changes)), Earlier(onto, name)).Judged;
            foreach (string line in Lines(name, judged))
            {
                Console.WriteLine(line);
            }

            foreach (IGrouping<int, Judged> some in judged.GroupBy(j => (int)Math.Log2(Math.Max(1, j.Row.PerPeriod))).OrderBy(g => g.Key))
            {
                Console.WriteLine($"  from {1 << some.Key} samples a period: {Scores.Line(name, [.. some], changes)}");
            }
        }
    }

    private static EarlierTrees? Earlier(string? folder, string name) => folder is null ? null : EarlierTrees.Read(folder, name);

    private static IEnumerable<string> Lines(string name, IReadOnlyList<Judged> judged) => judged
        .GroupBy(j => StudyRam.IsElastic(j.Row.Ram))
        .OrderBy(g => g.Key)
        .Select(g => Scores.Line($"{name}, {(g.Key ? "elastic" : "real")} pipe, {g.Select(j => j.Row.Ram).Distinct().Count()} rams", [.. g], name == "baseline"));

    private static List<StudyRow> Of(IEnumerable<StudyRow> rows, FieldSet set) => [.. rows.Where(r => StudyRam.SetOf(r.Ram) == set)];
}
