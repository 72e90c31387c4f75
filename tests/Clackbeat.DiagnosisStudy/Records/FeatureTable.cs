using System.Collections.Concurrent;
using System.Globalization;
using System.Text.Json;
using Clackbeat.DiagnosisStudy.Rams;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.States;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;

namespace Clackbeat.DiagnosisStudy.Records;

/// <summary>Analyses the records of a folder and keeps their features in one table, a row a record.</summary>
public static class FeatureTable
{
    private static readonly Feature[] Features = Enum.GetValues<Feature>();
    private static readonly Covariate[] Covariates = Enum.GetValues<Covariate>();

    /// <summary>Measures the records of a range of rams and writes the table.</summary>
    public static void Measure(string folder, string table, int first, int count)
    {
        var rows = new ConcurrentBag<string>();
        Parallel.For(first, first + count, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, number =>
        {
            if (StudyRam.Make(number) is not { } ram)
            {
                return;
            }

            foreach (StudyCase one in StudyCase.Of(ram))
            {
                string path = RecordMaker.PathOf(folder, ram, one);
                if (File.Exists(path) && new FileInfo(path).Length > 4)
                {
                    rows.Add(Row(path, ram, one));
                }
            }
        });
        File.WriteAllLines(table, [Header(), .. rows.Order(StringComparer.Ordinal)]);
    }

    /// <summary>Measures traces of another origin, NAME-CONDITION-….csv beside NAME.site.toml, as far as their truth is known.</summary>
    public static void MeasureTraces(string folder, string table)
    {
        var rows = new List<string>();
        foreach (string path in Directory.EnumerateFiles(folder, "*.csv").Order(StringComparer.Ordinal))
        {
            string name = Path.GetFileNameWithoutExtension(path);
            string ram = name[..name.IndexOf('-', StringComparison.Ordinal)];
            string condition = JsonDocument.Parse(File.ReadAllText(Path.ChangeExtension(path, ".truth.json"))).RootElement.GetProperty("condition").GetString()!;
            RamSite site = SiteFile.Load(Path.Combine(folder, ram + ".site.toml"));
            (double[] times, double[] pressures) = TraceReader.Read(path);
            rows.Add(Row(site, times, pressures, ram, name[(ram.Length + 1)..], condition, ""));
        }

        File.WriteAllLines(table, [Header(), .. rows]);
    }

    private static string Header() => string.Join(',', ["ram", "case", "conditions", "severity", "material", "state", "settled", .. Features.Select(s => s.ToString()), .. Covariates.Select(c => c.ToString())]);

    private static string Row(string path, StudyRam ram, StudyCase one)
    {
        (double[] times, double[] pressures) = RecordFile.Read(path);
        return Row(
            ram.Site, times, pressures, Text(ram.Number, "00000"), Text(one.Number, "00"),
            one.Faults.Count == 0 ? "healthy" : string.Join('+', one.Faults.Select(CaseNames.Of)),
            string.Join('+', one.Faults.Select(f => f.Severity.ToString("0.000", CultureInfo.InvariantCulture))));
    }

    private static string Row(RamSite site, double[] times, double[] pressures, string ram, string number, string condition, string severity)
    {
        (RamState state, string? settled, Signature? found) = FeatureReader.Read(site, times, pressures);
        return string.Join(',',
        [
            ram, number, condition, severity, site.DrivePipe.Material.ToString(), state.ToString(), settled ?? "",
            .. Features.Select(s => Text(found?.Features, s)),
            .. Covariates.Select(c => Text(found?.Covariates, c)),
        ]);
    }

    private static string Text<T>(IReadOnlyDictionary<T, double>? values, T key) =>
        values is not null && values.TryGetValue(key, out double value) ? value.ToString("G7", CultureInfo.InvariantCulture) : "";

    private static string Text(int number, string format) => number.ToString(format, CultureInfo.InvariantCulture);
}
