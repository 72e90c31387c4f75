namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>
/// Splits by ram: each fifth of the rams is judged by a model trained on the others. The calibration (J. Platt, 1999: one
/// slope and one shift a condition) is fitted on these, and for the judged rows again on the other fifths only.
/// </summary>
internal static class CrossValidation
{
    private const int Folds = 5;

    /// <summary>The final model, trained on all rows and calibrated on the judgements of rams unseen; and those judgements.</summary>
    public static (TrainedModel Model, List<Judged> Judged) Run(IReadOnlyList<StudyRow> rows, bool changes, TrainingSettings settings, EarlierTrees? earlier)
    {
        string[] rams = [.. rows.Select(r => r.Ram).Distinct().Order(StringComparer.Ordinal)];
        var foldOf = rams.Select((r, i) => (r, i % Folds)).ToDictionary(r => r.r, r => r.Item2, StringComparer.Ordinal);
        var parts = new TrainedModel[Folds];
        var sums = new Dictionary<StudyRow, Dictionary<string, double>>(ReferenceEqualityComparer.Instance);
        for (int fold = 0; fold < Folds; fold++)
        {
            parts[fold] = TrainedModel.Train([.. rows.Where(r => r.IsOfTheBeat && foldOf[r.Ram] != fold)], changes, settings, earlier);
            foreach (StudyRow row in rows.Where(r => foldOf[r.Ram] == fold && r.Features.Count > 0))
            {
                sums[row] = parts[fold].Sums(row);
            }
        }

        StudyRow[] beats = [.. rows.Where(r => r.IsOfTheBeat)];
        var judged = new List<Judged>();
        for (int fold = 0; fold < Folds; fold++)
        {
            TrainedModel part = parts[fold];
            var calibrations = part.Trained.ToDictionary(c => c, c => Calibrate(beats.Where(r => foldOf[r.Ram] != fold), sums, c, settings));
            judged.AddRange(rows.Where(r => foldOf[r.Ram] == fold && r.IsByFirstBaseline).Select(r => part.Judge(r, changes, calibrations)));
        }

        var model = TrainedModel.Train(beats, changes, settings, earlier);
        foreach (string condition in model.Trained)
        {
            model.Calibrations[condition] = Calibrate(beats, sums, condition, settings);
        }

        return (model, judged);
    }

    private static (double Slope, double Shift) Calibrate(
        IEnumerable<StudyRow> rows, Dictionary<StudyRow, Dictionary<string, double>> sums, string condition, TrainingSettings settings)
    {
        StudyRow[] all = [.. rows];
        double[] weights = BoundedLogistic.Fit(
            [.. all.Select(r => new[] { sums[r][condition], 1.0 })], [.. all.Select(r => r.Has(condition))],
            [.. all.Select(settings.WeightOf)], [true], 1e-3);
        return (weights[0], weights[1]);
    }
}
