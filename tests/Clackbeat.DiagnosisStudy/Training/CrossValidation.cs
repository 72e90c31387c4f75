using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>
/// Splits by ram: each fifth of the rams is judged by a model trained on the others. The calibration (J. Platt, 1999: one
/// slope and one shift a condition) is fitted on these, and for the judged rows again on the other fifths only.
/// </summary>
internal static class CrossValidation
{
    private const int Folds = 5;

    /// <summary>The final model, trained on all rows and calibrated on the judgements of rams unseen; and those judgements.</summary>
    public static (TrainedModel Model, List<Judged> Judged) Run(IReadOnlyList<StudyRow> rows, bool changes)
    {
        string[] rams = [.. rows.Select(r => r.Ram).Distinct().Order(StringComparer.Ordinal)];
        Dictionary<string, int> foldOf = rams.Select((r, i) => (r, i % Folds)).ToDictionary(r => r.r, r => r.Item2, StringComparer.Ordinal);
        var parts = new TrainedModel[Folds];
        var sums = new Dictionary<StudyRow, Dictionary<string, double>>(ReferenceEqualityComparer.Instance);
        for (int fold = 0; fold < Folds; fold++)
        {
            parts[fold] = TrainedModel.Train([.. rows.Where(r => r.IsOfTheBeat && foldOf[r.Ram] != fold)], changes);
            foreach (StudyRow row in rows.Where(r => foldOf[r.Ram] == fold && r.Signs.Count > 0))
            {
                sums[row] = parts[fold].Sums(row);
            }
        }

        StudyRow[] beats = [.. rows.Where(r => r.IsOfTheBeat)];
        var judged = new List<Judged>();
        for (int fold = 0; fold < Folds; fold++)
        {
            TrainedModel part = parts[fold];
            var calibrations = Conditions.Beating.ToDictionary(c => c, c => Calibrate(beats.Where(r => foldOf[r.Ram] != fold), sums, c, changes));
            judged.AddRange(rows.Where(r => foldOf[r.Ram] == fold).Select(r => new Judged(
                r,
                sums.TryGetValue(r, out Dictionary<string, double>? sum) ? Conditions.Beating.ToDictionary(c => c, c => Honest(sum[c], calibrations[c])) : [],
                changes ? c => part.StageOf(c, r) : null,
                r.Signs.Count == 0 || (!changes && part.IsBeyond(r)))));
        }

        TrainedModel model = TrainedModel.Train(beats, changes);
        foreach (string condition in Conditions.Beating)
        {
            model.Calibrations[condition] = Calibrate(beats, sums, condition, changes);
        }

        return (model, judged);
    }

    private static double Honest(double sum, (double Slope, double Shift) by) => 1 / (1 + Math.Exp(-((by.Slope * sum) + by.Shift)));

    private static (double Slope, double Shift) Calibrate(
        IEnumerable<StudyRow> rows, Dictionary<StudyRow, Dictionary<string, double>> sums, string condition, bool changes)
    {
        StudyRow[] all = [.. rows];
        double[] weights = BoundedLogistic.Fit(
            [.. all.Select(r => new[] { sums[r][condition], 1.0 })], [.. all.Select(r => r.Has(condition))],
            [.. all.Select(r => TrainedModel.WeightOf(r, changes))], [true], 1e-3);
        return (weights[0], weights[1]);
    }
}
