using System.Globalization;
using Clackbeat.DiagnosisStudy.Rams;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site.Model;
using nietras.SeparatedValues;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>One record of the study as training and judging see it.</summary>
/// <param name="Ram">The ram it is of.</param>
/// <param name="Case">Number of the case.</param>
/// <param name="Conditions">What is wrong, condition codes; none for a well ram.</param>
/// <param name="Severity">Largest severity; 0 for a well ram.</param>
/// <param name="Settled">What the program named without asking a model: a stop, a sensor fault; null when a model is asked.</param>
/// <param name="Beating">Whether it beats at the end of the record.</param>
/// <param name="Record">Features, or their changes against the baseline; none where the record gave none.</param>
/// <param name="PerPeriod">Samples in a pipe period.</param>
internal sealed record StudyRow(
    string Ram, string Case, IReadOnlyList<string> Conditions, double Severity, string? Settled, bool Beating,
    Comparison Record, double PerPeriod)
{
    private const string Baseline = "00";

    // Other well days that serve as baselines too, to train on: what differs from day to day is learnt from them.
    private static readonly string[] OtherBaselines = ["01", "02"];

    private static readonly string[] NotOfTheBeat =
        [Signal.Diagnosis.Conditions.SensorFault, Signal.Diagnosis.Conditions.StoppedShut, Signal.Diagnosis.Conditions.StoppedOpen];

    /// <summary>Features, or their changes.</summary>
    public IReadOnlyDictionary<Feature, double> Features => Record.Features;

    /// <summary>Site and recording, or their changes.</summary>
    public IReadOnlyDictionary<Covariate, double> Covariates => Record.Covariates;

    /// <summary>What is to be named first; "healthy" for a well ram.</summary>
    public string Truth => Conditions.Count == 0 ? Signal.Diagnosis.Conditions.Healthy : Conditions[0];

    /// <summary>Whether the record is one that the models of the beat are made for.</summary>
    public bool IsOfTheBeat => Beating && Settled is null && Features.Count > 0 && !Conditions.Any(NotOfTheBeat.Contains);

    /// <summary>Whether a condition is present; "healthy" when none is.</summary>
    public bool Has(string condition) =>
        condition == Signal.Diagnosis.Conditions.Healthy ? Conditions.Count == 0 : Conditions.Contains(condition);

    /// <summary>Whether the changes are against the ram's first record, which was made to be the baseline.</summary>
    public bool IsByFirstBaseline { get; init; } = true;

    /// <summary>Reads the tables of a study.</summary>
    /// <param name="tables">Files.</param>
    /// <param name="againstBaseline">Take changes against each ram's baseline instead of the features themselves.</param>
    public static List<StudyRow> Read(IEnumerable<string> tables, bool againstBaseline)
    {
        var rows = new List<StudyRow>();
        foreach (StudyRow[] ram in tables.SelectMany(Lines).GroupBy(l => l.Ram).Select(g => g.ToArray()))
        {
            StudyRow? first = Well(ram, Baseline);
            if (first is null)
            {
                continue;
            }

            if (!againstBaseline)
            {
                RamSite? site = int.TryParse(first.Ram, CultureInfo.InvariantCulture, out int number) ? StudyRam.Make(number)?.Site : null;
                rows.AddRange(site is null ? ram : ram.Select(r => r with { Record = SiteEvidence.Of(r.Record, site) }));
                continue;
            }

            rows.AddRange(Changes(ram, first));
            foreach (StudyRow other in OtherBaselines.Select(c => Well(ram, c)).OfType<StudyRow>())
            {
                rows.AddRange(Changes(ram, other).Where(r => r.IsOfTheBeat).Select(r => r with { IsByFirstBaseline = false }));
            }
        }

        return rows;
    }

    private static StudyRow? Well(StudyRow[] ram, string number) => ram.FirstOrDefault(l => l.Case == number && l.IsOfTheBeat);

    private static IEnumerable<StudyRow> Changes(StudyRow[] ram, StudyRow well) =>
        ram.Where(l => l.Case != well.Case && l.Case != Baseline).Select(l => l with { Record = Comparison.ByBaseline(l.Record, well.Record) });

    private static List<StudyRow> Lines(string table)
    {
        using SepReader reader = Sep.New(',').Reader().FromFile(table);
        return [.. reader.Enumerate(Line)];
    }

    private static StudyRow Line(SepReader.Row row)
    {
        Dictionary<Covariate, double> covariates = Values<Covariate>(row);
        string settled = row["settled"].ToString();
        return new StudyRow(
            row["ram"].ToString(), row["case"].ToString(), ConditionsOf(row["conditions"].ToString()), SeverityOf(row["severity"].ToString()),
            settled.Length == 0 ? null : settled, row["state"].ToString() == "Beating", Comparison.BySite(Values<Feature>(row), covariates),
            covariates.TryGetValue(Covariate.Sampling, out double sampling) ? Math.Exp(sampling) : 0);
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
