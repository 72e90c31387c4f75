using System.Globalization;
using Clackbeat.Signal.Diagnosis;
using nietras.SeparatedValues;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>One record of the study as the training sees it.</summary>
/// <param name="Ram">The ram it is of.</param>
/// <param name="Conditions">What is wrong, condition codes; none for a well ram.</param>
/// <param name="Severity">Largest severity; 0 for a well ram.</param>
/// <param name="Signs">Signs, or their changes against the baseline.</param>
/// <param name="Circumstances">Site and recording, or their changes.</param>
public sealed record StudyRow(
    string Ram, IReadOnlyList<string> Conditions, double Severity, IReadOnlyDictionary<Sign, double> Signs,
    IReadOnlyDictionary<Circumstance, double> Circumstances)
{
    private const string Baseline = "00";

    /// <summary>Whether a condition is present; "healthy" when none is.</summary>
    public bool Has(string condition) =>
        condition == Signal.Diagnosis.Conditions.Healthy ? Conditions.Count == 0 : Conditions.Contains(condition);

    /// <summary>Reads the tables of a study: rows of beating rams without sensor faults.</summary>
    /// <param name="tables">Files.</param>
    /// <param name="againstBaseline">Take changes against each ram's baseline instead of the signs themselves.</param>
    public static List<StudyRow> Read(IEnumerable<string> tables, bool againstBaseline)
    {
        var rows = new List<StudyRow>();
        foreach (IGrouping<string, (string Case, StudyRow Row)> ram in tables.SelectMany(Lines).GroupBy(l => l.Row.Ram))
        {
            StudyRow? well = ram.FirstOrDefault(l => l.Case == Baseline).Row;
            if (well is null)
            {
                continue;
            }

            rows.AddRange(againstBaseline
                ? ram.Where(l => l.Case != Baseline).Select(l => l.Row with
                {
                    Signs = Changes(l.Row.Signs, well.Signs),
                    Circumstances = Changes(l.Row.Circumstances, well.Circumstances),
                })
                : ram.Select(l => l.Row));
        }

        return rows;
    }

    private static Dictionary<T, double> Changes<T>(IReadOnlyDictionary<T, double> now, IReadOnlyDictionary<T, double> before)
        where T : notnull => now.Where(s => before.ContainsKey(s.Key)).ToDictionary(s => s.Key, s => s.Value - before[s.Key]);

    private static List<(string Case, StudyRow Row)> Lines(string table)
    {
        using SepReader reader = Sep.New(',').Reader().FromFile(table);
        return
        [
            .. reader.Enumerate(row => (
                State: row["state"].ToString(),
                Case: row["case"].ToString(),
                Row: new StudyRow(
                    row["ram"].ToString(), ConditionsOf(row["conditions"].ToString()), SeverityOf(row["severity"].ToString()), Values<Sign>(row), Values<Circumstance>(row))))
                .Where(l => l.State == "Beating" && l.Row.Signs.Count > 0 && !l.Row.Conditions.Contains(Signal.Diagnosis.Conditions.SensorFault))
                .Select(l => (l.Case, l.Row)),
        ];
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
