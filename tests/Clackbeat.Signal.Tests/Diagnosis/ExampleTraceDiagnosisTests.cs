using System.Text.Json;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Traces;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Tests.Diagnosis;

/// <summary>
/// Traces of an independent model with known conditions, and of a real ram. Nothing was trained on them; skipped where the
/// folder is absent.
/// </summary>
public class ExampleTraceDiagnosisTests
{
    [SkippableTheory]
    [InlineData("steel2")]
    [InlineData("pvc40")]
    public void With_the_healthy_trace_as_baseline_each_condition_is_among_the_first_two_and_no_well_ram_is_called_ill(string ram)
    {
        string? folder = Rams.TracesFolder("given");
        Skip.If(folder is null, "The example traces are not beside this checkout.");
        RamSite site = Rams.LoadSite(Path.Combine(folder, ram + ".site.toml"));
        Signature well = Analyse(site, Path.Combine(folder, ram + "-healthy-plain.csv"), null).Signature!;
        foreach (string path in Directory.EnumerateFiles(folder, ram + "-*.csv"))
        {
            string truth = JsonDocument.Parse(File.ReadAllText(Path.ChangeExtension(path, ".truth.json")))
                .RootElement.GetProperty("condition").GetString()!;
            string[] named = [.. Analyse(site, path, well).Diagnosis.Select(f => f.Condition)];
            int enough = truth is Conditions.Healthy or Conditions.StoppedShut or Conditions.StoppedOpen ? 1 : 2;
            Assert.True(named.Take(enough).Contains(truth), $"{Path.GetFileName(path)} was judged {string.Join(", ", named)}");
        }
    }

    [SkippableTheory]
    [InlineData("ram-body-a.tsv")]
    [InlineData("ram-body-b.tsv")]
    public void Of_a_real_ram_sampled_too_slowly_nothing_is_asserted_and_the_reason_is_told(string file)
    {
        string? folder = Rams.TracesFolder("measured");
        Skip.If(folder is null, "The measured traces are not beside this checkout.");
        string path = Path.Combine(folder, file);
        string[] columns = File.ReadLines(path).First().Split('\t');
        RamAnalysis analysis = Rams.Analyse(
            Rams.Laboratory, path, TraceColumns.Parse(columns[0] + ":day", columns[1] + ":cm"));
        Assert.Empty(analysis.Diagnosis);
        Assert.Contains(analysis.Limits, l => l.StartsWith("No diagnosis", StringComparison.Ordinal));
    }

    private static RamAnalysis Analyse(RamSite site, string path, Signature? well)
    {
        using TraceFile trace = TraceFile.Open(path, TraceColumns.Parse(null, null));
        var analyser = new RamAnalyser(site, well);
        var times = new double[5000];
        var pressures = new double[5000];
        while (trace.Read(times, pressures) is > 0 and var count)
        {
            analyser.Add(times.AsSpan(0, count), pressures.AsSpan(0, count));
        }

        return analyser.Finish(path);
    }
}
