using System.Text.Json;
using Clackbeat.Records.Tables;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.States;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Tests.Diagnosis;

/// <summary>
/// Traces of an independent model with known conditions, and of a real ram. Nothing was trained on them; skipped where the
/// folder is absent.
/// </summary>
public class ExampleTraceDiagnosisTests
{
    // What the project asks of itself on rams it has not seen, with a baseline.
    private const double NamedFirst = 0.85;
    private const double AmongTwo = 0.95;

    [SkippableFact]
    public void With_the_healthy_trace_as_baseline_conditions_are_named_and_no_well_ram_is_called_ill()
    {
        string? folder = Rams.TracesFolder("given");
        Skip.If(folder is null, "The example traces are not beside this checkout.");
        var judged = new List<(string Trace, string Truth, string[] Named)>();
        foreach (string ram in new[] { "steel2", "pvc40" })
        {
            RamSite site = Rams.LoadSite(Path.Combine(folder, ram + ".site.toml"));
            Signature well = Analyse(site, Path.Combine(folder, ram + "-healthy-plain.csv"), null).Signature!;
            judged.AddRange(Directory.EnumerateFiles(folder, ram + "-*.csv").Select(path => (
                Path.GetFileName(path), Truth(path), (string[])[.. Analyse(site, path, well).Diagnosis.Select(f => f.Condition)])));
        }

        Assert.All(judged.Where(j => j.Truth == Conditions.Healthy), j => Assert.Equal(Conditions.Healthy, j.Named[0]));
        var ill = judged.Where(j => j.Truth != Conditions.Healthy).ToList();
        string misses = string.Join("; ", ill.Where(j => j.Named[0] != j.Truth).Select(j => $"{j.Trace}: {string.Join(", ", j.Named)}"));
        Assert.True(ill.Count(j => j.Named[0] == j.Truth) >= NamedFirst * ill.Count, misses);
        Assert.True(ill.Count(j => j.Named.Take(2).Contains(j.Truth)) >= AmongTwo * ill.Count, misses);
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
        Assert.DoesNotContain(analysis.Diagnosis, f => Conditions.Beating.Contains(f.Condition) && f.Condition != Conditions.SupplyStarved);
        Assert.True(analysis.State != RamState.Beating || analysis.Diagnosis.Count == 0);
        Assert.Contains(analysis.Limits, l => l.Code is "diagnosis-few-beats" or "diagnosis-sampled-too-slowly" or "diagnosis-strange");
    }

    private static string Truth(string path) => JsonDocument.Parse(File.ReadAllText(Path.ChangeExtension(path, ".truth.json")))
        .RootElement.GetProperty("condition").GetString()!;

    private static RamAnalysis Analyse(RamSite site, string path, Signature? well)
    {
        using var trace = TraceFile.Open(path, TraceColumns.Parse(null, null));
        var analyser = new RamAnalyser(site, well);
        double[] times = new double[5000];
        double[] pressures = new double[5000];
        while (trace.Read(times, pressures) is > 0 and var count)
        {
            analyser.Add(times.AsSpan(0, count), pressures.AsSpan(0, count));
        }

        return analyser.Finish(path);
    }
}
