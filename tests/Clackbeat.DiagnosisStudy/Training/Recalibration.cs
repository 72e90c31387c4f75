using System.Globalization;
using Clackbeat.DiagnosisStudy.Papers;
using Clackbeat.DiagnosisStudy.Rams;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.VirtualRam.Field;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>
/// Fits only the calibration of the shipped trees, one slope and one shift a condition (J. Platt, 1999), over rams that the trees have
/// not seen: few rams are enough for that, where new trees take hundreds.
/// </summary>
internal static class Recalibration
{
    private const string Trained = "157 rams of usual make and 139 extreme ones with elastic pipes (their trees), and calibrated on";

    /// <summary>Calibrates on the rams to choose by; reports on the rams to report on.</summary>
    /// <param name="tables">Tables of features.</param>
    /// <param name="folder">Where the data files go; null only prints how the rams to choose by are judged.</param>
    /// <param name="docs">The documentation folder.</param>
    /// <param name="change">Makes the settings to try from the usual ones.</param>
    public static void Run(IReadOnlyList<string> tables, string? folder, string docs, Func<TrainingSettings, TrainingSettings> change)
    {
        var reported = new Dictionary<string, IReadOnlyList<Judged>>(StringComparer.Ordinal);
        foreach ((string name, ConditionModel model, bool changes) in ShippedModels.All)
        {
            TrainingSettings settings = change(TrainingSettings.Of(changes));
            List<StudyRow> rows = [.. StudyRow.Read(tables, changes).Where(r => r.IsByFirstBaseline)];
            StudyRow[] choosing = [.. rows.Where(r => StudyRam.SetOf(r.Ram) == FieldSet.Choosing)];
            StudyRow[] beats = [.. choosing.Where(r => r.IsOfTheBeat)];
            var calibrations = model.Conditions.ToDictionary(c => c, c => Fit(beats, model, c, settings), StringComparer.Ordinal);
            Print("choosing, " + name, [.. choosing.Select(r => ShippedModels.Judge(r, model, changes, calibrations))], changes);
            if (folder is null)
            {
                continue;
            }

            reported[name] = [.. rows.Where(r => StudyRam.SetOf(r.Ram) == FieldSet.Reporting).Select(r => ShippedModels.Judge(r, model, changes, calibrations))];
            Print("reporting, " + name, reported[name], changes);
            Write(Path.Combine(folder, $"{name}-conditions.csv"), model, calibrations);
            if (!changes)
            {
                string[] rams = [.. choosing.Select(r => r.Ram).Distinct()];
                string trained = $"{Trained} {rams.Count(r => !StudyRam.IsElastic(r))} real and {rams.Count(StudyRam.IsElastic)} elastic rams";
                ResultPage.Write(reported["baseline"], reported["site"], trained, docs);
            }
        }
    }

    private static (double Slope, double Shift) Fit(StudyRow[] rows, ConditionModel model, string condition, TrainingSettings settings)
    {
        double[] weights = BoundedLogistic.Fit(
            [.. rows.Select(r => new[] { model.Sum(condition, model.Score(r.Record)), 1.0 })], [.. rows.Select(r => r.Has(condition))],
            [.. rows.Select(settings.WeightOf)], [true], 1e-3);
        return (weights[0], weights[1]);
    }

    private static void Write(string path, ConditionModel model, Dictionary<string, (double Slope, double Shift)> calibrations)
    {
        string N(double value) => value.ToString("0.#####", CultureInfo.InvariantCulture);
        double Constant(string condition) => Math.Log(model.Prior(condition) / (1 - model.Prior(condition)));
        File.WriteAllLines(path,
        [
            "condition,constant,slope,shift",
            .. calibrations.Keys.Select(c => $"{c},{N(Constant(c))},{N(calibrations[c].Slope)},{N(calibrations[c].Shift)}"),
        ]);
    }

    private static void Print(string name, IReadOnlyList<Judged> judged, bool changes)
    {
        foreach (IGrouping<bool, Judged> some in judged.GroupBy(j => StudyRam.IsElastic(j.Row.Ram)).OrderBy(g => g.Key))
        {
            Console.WriteLine(Scores.Line($"{name}, {(some.Key ? "elastic" : "real")} pipe, {some.Select(j => j.Row.Ram).Distinct().Count()} rams", [.. some], changes));
        }
    }
}
