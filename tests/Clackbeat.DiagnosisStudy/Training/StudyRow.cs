using System.Globalization;
using Clackbeat.Signal.Diagnosis;
using nietras.SeparatedValues;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>One record of the study as training and judging see it.</summary>
/// <param name="Ram">The ram it is of.</param>
/// <param name="Case">Number of the case.</param>
/// <param name="Conditions">What is wrong, condition codes; none for a well ram.</param>
/// <param name="Severity">Largest severity; 0 for a well ram.</param>
/// <param name="Settled">What the program named without asking a model: a stop, a sensor fault; null when a model is asked.</param>
/// <param name="Beating">Whether it beats at the end of the record.</param>
/// <param name="Signs">Signs, or their changes against the baseline; none where the record gave none.</param>
/// <param name="Circumstances">Site and recording, or their changes.</param>
/// <param name="PerPeriod">Samples in a pipe period.</param>
public sealed record StudyRow(
    string Ram, string Case, IReadOnlyList<string> Conditions, double Severity, string? Settled, bool Beating,
    IReadOnlyDictionary<Sign, double> Signs, IReadOnlyDictionary<Circumstance, double> Circumstances, double PerPeriod)
{
    private const string Baseline = "00";

    private static readonly string[] NotOfTheBeat =
        [Signal.Diagnosis.Conditions.SensorFault, Signal.Diagnosis.Conditions.StoppedShut, Signal.Diagnosis.Conditions.StoppedOpen];

    /// <summary>What is to be named first; "healthy" for a well ram.</summary>
    public string Truth => Conditions.Count == 0 ? Signal.Diagnosis.Conditions.Healthy : Conditions[0];

    /// <summary>Whether the record is one that the models of the beat are made for.</summary>
    public bool IsOfTheBeat => Beating && Settled is null && Signs.Count > 0 && !Conditions.Any(NotOfTheBeat.Contains);

    /// <summary>Whether a condition is present; "healthy" when none is.</summary>
    public bool Has(string condition) =>
        condition == Signal.Diagnosis.Conditions.Healthy ? Conditions.Count == 0 : Conditions.Contains(condition);

    /// <summary>Reads the tables of a study.</summary>
    /// <param name="tables">Files.</param>
    /// <param name="againstBaseline">Take changes against each ram's baseline instead of the signs themselves.</param>
    public static List<StudyRow> Read(IEnumerable<string> tables, bool againstBaseline)
    {
        var rows = new List<StudyRow>();
        foreach (IGrouping<string, StudyRow> ram in tables.SelectMany(Lines).GroupBy(l => l.Ram))
        {
            StudyRow? well = ram.FirstOrDefault(l => l.Case == Baseline && l.IsOfTheBeat);
            if (well is null)
            {
                continue;
            }

            rows.AddRange(againstBaseline
                ? ram.Where(l => l.Case != Baseline).Select(l => l with
                {
                    Signs = Changes(l.Signs, well.Signs),
                    Circumstances = Changes(l.Circumstances, well.Circumstances),
                })
                : ram);
        }

        return rows;
    }

    private static Dictionary<T, double> Changes<T>(IReadOnlyDictionary<T, double> now, IReadOnlyDictionary<T, double> before)
        where T : notnull => now.Where(s => before.ContainsKey(s.Key)).ToDictionary(s => s.Key, s => s.Value - before[s.Key]);

    private static List<StudyRow> Lines(string table)
    {
        using SepReader reader = Sep.New(',').Reader().FromFile(table);
        return [.. reader.Enumerate(Line)];
    }

    private static StudyRow Line(SepReader.Row row)
    {
        Dictionary<Circumstance, double> circumstances = Values<Circumstance>(row);
        string settled = row["settled"].ToString();
        return new StudyRow(
            row["ram"].ToString(), row["case"].ToString(), ConditionsOf(row["conditions"].ToString()), SeverityOf(row["severity"].ToString()),
            settled.Length == 0 ? null : settled, row["state"].ToString() == "Beating", Values<Sign>(row), circumstances,
            circumstances.TryGetValue(Circumstance.Sampling, out double sampling) ? Math.Exp(sampling) : 0);
    }

    private static string[] ConditionsOf(string text) =>
        [.. text.Split('+').Select(c => c.Split(':')[0]).Where(c => c != Signal.Diagnosis.Conditions.Healthy)];

    private static double SeverityOf(string text) =>
        text.Length == 0 ? 0 : text.Split('+').Max(s => double.Parse(s, CultureInfo.InvariantCulture));

    private static Dictionary<T, double> Values<T>(SepReader.Row row)
        where T : struct, Enum
    {
        var values = new Dictionary<T, double>();
        foreach (T key in Enum.GetValues<T>())
        {
            if (double.TryParse(row[key.ToString()].Span, CultureInfo.InvariantCulture, out double value))
            {
                values[key] = value;
            }
        }

        return values;
    }
}
