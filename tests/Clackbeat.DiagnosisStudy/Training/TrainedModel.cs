using System.Globalization;
using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>A model as trained: scales of the signs, weights and calibration of each condition.</summary>
public sealed class TrainedModel
{
    private const double Ridge = 1;

    // Most recordings are of well rams, while of the study's only one in five is; a false alarm costs a walk to the ram.
    // Without a baseline a false alarm is the likelier error, so a well ram counts more there.
    private const double WellCountsAgainstBaseline = 1.5;
    private const double WellCountsAgainstSite = 2;

    private readonly Dictionary<Sign, Scale> _scales = [];
    private readonly Dictionary<string, double[]> _weights = new(StringComparer.Ordinal);

    /// <summary>Slope and shift that turn a condition's sum into honest odds.</summary>
    public Dictionary<string, (double Slope, double Shift)> Calibrations { get; } = new(StringComparer.Ordinal);

    /// <summary>Trains on rows.</summary>
    /// <param name="rows">The rows.</param>
    /// <param name="changes">The signs are changes: a well ram's are 0 by definition.</param>
    public static TrainedModel Train(IReadOnlyList<StudyRow> rows, bool changes)
    {
        var model = new TrainedModel();
        foreach (Sign sign in Expectations.Used)
        {
            model._scales[sign] = Scale.Of(rows, sign, changes);
        }

        List<double[]> inputs = [.. rows.Select(r => model.Inputs(r.Signs))];
        var fitted = Conditions.Beating.AsParallel().Select(condition => (condition, BoundedLogistic.Fit(
            inputs,
            [.. rows.Select(r => r.Has(condition))],
            [.. rows.Select(r => WeightOf(r, changes))],
            [.. Expectations.Used.SelectMany(s => new[] { true, false }.Select(rise => Expectations.MaySpeakFor(condition, s, rise)))],
            Ridge)));
        foreach ((string condition, double[] weights) in fitted)
        {
            model._weights[condition] = weights;
        }

        return model;
    }

    /// <summary>How much a row counts.</summary>
    public static double WeightOf(StudyRow row, bool changes) => row.Conditions.Count > 0 ? 1
        : changes ? WellCountsAgainstBaseline : WellCountsAgainstSite;

    /// <summary>The logarithm of the odds of a condition, uncalibrated.</summary>
    public double Sum(string condition, IReadOnlyDictionary<Sign, double> signs)
    {
        double[] inputs = Inputs(signs);
        double[] weights = _weights[condition];
        double sum = 0;
        for (int i = 0; i < inputs.Length; i++)
        {
            sum += inputs[i] * weights[i];
        }

        return sum;
    }

    /// <summary>Writes the data files the program ships.</summary>
    public void Write(string folder, string name)
    {
        string N(double value) => value.ToString("0.#####", CultureInfo.InvariantCulture);
        string E(double value) => value.ToString("G6", CultureInfo.InvariantCulture);
        File.WriteAllLines(Path.Combine(folder, $"{name}-scales.csv"),
        [
            "sign,centre,scale,low,high",
            .. _scales.Select(s => $"{s.Key},{E(s.Value.Centre)},{E(s.Value.Width)},{E(s.Value.Low)},{E(s.Value.High)}"),
        ]);
        var lines = new List<string> { "condition,sign,rise,fall" };
        foreach (string condition in Conditions.Beating)
        {
            double[] weights = _weights[condition];
            lines.Add($"{condition},(constant),{N(weights[^1])},0");
            lines.Add($"{condition},(calibration),{N(Calibrations[condition].Slope)},{N(Calibrations[condition].Shift)}");
            lines.AddRange(Expectations.Used.Select((s, i) => $"{condition},{s},{N(weights[2 * i])},{N(weights[(2 * i) + 1])}"));
        }

        File.WriteAllLines(Path.Combine(folder, $"{name}-weights.csv"), lines);
    }

    private double[] Inputs(IReadOnlyDictionary<Sign, double> signs)
    {
        var inputs = new double[(2 * Expectations.Used.Count) + 1];
        for (int i = 0; i < Expectations.Used.Count; i++)
        {
            Sign sign = Expectations.Used[i];
            double distance = signs.TryGetValue(sign, out double value) ? (value - _scales[sign].Centre) / _scales[sign].Width : 0;
            inputs[2 * i] = ConditionModel.Strength(distance);
            inputs[(2 * i) + 1] = ConditionModel.Strength(-distance);
        }

        inputs[^1] = 1;
        return inputs;
    }

    /// <summary>Where a sign of a well ram lies, how far it scatters, and what was seen of it at all.</summary>
    private readonly record struct Scale(double Centre, double Width, double Low, double High)
    {
        public static Scale Of(IReadOnlyList<StudyRow> rows, Sign sign, bool changes)
        {
            double[] well = Values(rows.Where(r => r.Conditions.Count == 0), sign);
            double[] all = Values(rows, sign);
            double centre = changes ? 0 : At(well, 0.5);
            double[] off = [.. well.Select(v => Math.Abs(v - centre)).Order()];

            // Three quarters of normal values lie within 1.15 standard deviations.
            return new Scale(centre, Math.Max(At(off, 0.75) / 1.15, Expectations.FloorOf(sign)), At(all, 0.002), At(all, 0.998));
        }

        private static double[] Values(IEnumerable<StudyRow> rows, Sign sign) =>
            [.. rows.Where(r => r.Signs.ContainsKey(sign)).Select(r => r.Signs[sign]).Order()];

        private static double At(double[] sorted, double share) =>
            sorted.Length == 0 ? 0 : sorted[(int)Math.Round(share * (sorted.Length - 1))];
    }
}
