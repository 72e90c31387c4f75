using System.Text.Json;
using Clackbeat.Records.Tables;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.States;

namespace Clackbeat.Signal.Tests.Beats;

/// <summary>
/// Against traces kept beside the checkout: made ones by an independent model with their truth, and ones measured by a
/// university laboratory on a small vertical ram (Cornell AguaClara, repository ram_pump, commit 7d0ec94; no licence is
/// stated, so nothing of them is copied here). Skipped where that folder is absent.
/// </summary>
public class ExampleTraceTests
{
    private static readonly TraceColumns Measured = TraceColumns.Parse("day_fraction:day", "body_cm:cm");

    [SkippableFact]
    public void Made_traces_give_the_beats_rate_closures_delivery_and_state_of_their_truth()
    {
        string? folder = Rams.TracesFolder("given");
        Skip.If(folder is null, "no folder of example traces beside the checkout");
        foreach (string path in Directory.GetFiles(folder, "*.csv"))
        {
            string name = Path.GetFileNameWithoutExtension(path);
            using var truth = JsonDocument.Parse(File.ReadAllText(Path.ChangeExtension(path, ".truth.json")));
            JsonElement root = truth.RootElement;
            RamAnalysis found = Rams.Analyse(
                Rams.LoadSite(Path.Combine(folder, name[..name.IndexOf('-', StringComparison.Ordinal)] + ".site.toml")), path, TraceColumns.Default);
            var beats = root.GetProperty("beats_list").EnumerateArray().ToList();
            Assert.True(Math.Abs(found.Beats.Count - beats.Count) <= 1, $"{name}: {found.Beats.Count} beats, {beats.Count} true");
            double rate = root.GetProperty("beat_rate_per_min").GetDouble();
            Assert.True(Math.Abs((found.Beats.RatePerMin!.Value.Value / rate) - 1) < 0.003, $"{name}: rate {found.Beats.RatePerMin}, {rate} true");
            double near = beats.Average(b => found.BeatList.Min(f => Math.Abs(f.ClosureS - b.GetProperty("close_s").GetDouble())) < 0.003 ? 1.0 : 0);
            Assert.True(near >= 0.95, $"{name}: {near:P0} of closures within 3 ms");
            if (!name.Contains("waterlogged", StringComparison.Ordinal) && !name.Contains("offset", StringComparison.Ordinal))
            {
                double plateau = beats.Average(b => b.GetProperty("plateau_kPa").GetDouble());
                double delivery = found.Pressure.Delivery!.Value.Value / 1000;
                Assert.True(Math.Abs((delivery / plateau) - 1) < 0.02, $"{name}: delivery {delivery} kPa, {plateau} true");
            }

            Assert.Equal(
                name.Contains("stopped-shut", StringComparison.Ordinal) ? RamState.StoppedShut
                : name.Contains("stopped-open", StringComparison.Ordinal) ? RamState.StoppedOpen : RamState.Beating,
                found.State);
        }
    }

    [SkippableTheory]
    [InlineData("ram-body-a", 213, 218)]
    [InlineData("ram-body-b", 255, 270)]
    public void Measured_rams_beat_as_often_as_known(string name, double lowest, double highest)
    {
        string? folder = Rams.TracesFolder("measured");
        Skip.If(folder is null, "no folder of measured traces beside the checkout");
        RamAnalysis found = Rams.Analyse(Rams.Laboratory2019, Path.Combine(folder, name + ".tsv"), Measured);

        // The second one starts up and falters at times; its steady part is what most beats do.
        double rate = 60 / found.BeatList.Skip(30).Select(b => b.IntervalS).Order().ElementAt((found.BeatList.Count - 30) / 2);
        Assert.InRange(rate, lowest, highest);
        Assert.True(found.Input.Gaps.Count > 0 && found.Input.RepeatedTimestamps > 0);
    }

    [SkippableFact]
    public void Still_water_beats_never()
    {
        string? folder = Rams.TracesFolder("measured");
        Skip.If(folder is null, "no folder of measured traces beside the checkout");
        RamAnalysis found = Rams.Analyse(Rams.Laboratory, Path.Combine(folder, "still-water.tsv"), Measured);
        Assert.Equal(0, found.Beats.Count);
        Assert.Equal(RamState.StoppedShut, found.State);
    }
}
