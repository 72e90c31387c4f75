using Clackbeat.Commands.Simulate;
using Clackbeat.Logger;
using Clackbeat.Records.Sources;
using Clackbeat.Report.Export;
using Clackbeat.Season.Store;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;

namespace Clackbeat.Acceptance;

/// <summary>Whatever samples come from, the same ones give the same figures; and a card's bursts reach the season.</summary>
public sealed class OneRoadTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly RamSite _site;

    public OneRoadTests()
    {
        Outcome.Of("site", "new", _folder["ram.toml"]);
        _site = SiteFile.Load(_folder["ram.toml"]);
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_line_its_recording_and_its_table_give_the_same_figures()
    {
        string recording = _folder["line.cbrec"];
        RamAnalysis fromLine = RecordedLine.Make(recording, _site, Chain(), TimeSpan.FromSeconds(10));

        var exported = Outcome.Of("export", recording, "--site", _folder["ram.toml"], "--out", _folder["line.csv"]);
        Assert.True(exported.ExitCode is 0 or 3, exported.Error);
        string expected = Figures(fromLine);
        Assert.Contains("\"rate_per_min\"", expected, StringComparison.Ordinal);
        Assert.Equal(expected, Figures(RecordAnalysis.Of(RecordingSource.Open(recording, _site), _site)));
        Assert.Equal(expected, Figures(RecordAnalysis.Of(TableSource.Open(_folder["line.csv"], Records.Tables.TraceColumns.Default), _site)));
    }

    [Fact]
    public void Bursts_of_a_card_are_stored_once_with_the_bounds_of_their_time()
    {
        VirtualLogger.VirtualLogger.RunAlone(
            Chain().Source,
            new VirtualLoggerOptions
            {
                CardFolder = _folder["card"],
                Settings = new LoggerSettings { WorksAlone = true, BurstLengthMilliseconds = 8000, BurstIntervalMilliseconds = 3_600_000 },
            },
            2.5 * 3600);
        var collected = Outcome.Of("collect", _folder["card"], "--out", _folder["bursts"], "--started", "2026-05-01T09:00:00Z");
        Assert.True(collected.ExitCode == 0, collected.Error);
        Outcome first = Log(_folder["bursts"]);
        Assert.Equal(0, first.ExitCode);
        Assert.Equal(3, Count(first, "1 burst stored, 0 already there"));
        Assert.Equal(3, Count(Log(_folder["bursts"]), "0 bursts stored, 1 already there"));
        Assert.Equal(3, Count(Log(_folder["card"], "--started", "2026-05-01T09:00:00Z"), "0 bursts stored, 1 already there"));

        using ISeasonStore store = SeasonStores.Open(_folder["season.db"], create: false);
        SeasonBurst[] bursts = [.. store.Bursts(_site.Name, TimeSpanUtc.All)];
        Assert.Equal(3, bursts.Length);
        for (int i = 0; i < bursts.Length; i++)
        {
            // Told to the second: ±5 s, and a sleep clock that may be off by 2.5 % an hour.
            DateTimeOffset truth = new DateTimeOffset(2026, 5, 1, 9, 0, 0, TimeSpan.Zero).AddHours(i);
            Assert.InRange(bursts[i].StartUncertaintyS!.Value, 5, 10 + (i * 0.025 * 3600 * 1.1));
            Assert.InRange(Math.Abs((bursts[i].StartUtc - truth).TotalSeconds), 0, bursts[i].StartUncertaintyS!.Value);
        }

        // The same samples by the card and by the collected recording.
        using var card = BurstFolder.Open(_folder["card"], _site, new SwitchedOn(bursts[0].StartUtc, 5), "test", TimeProvider.System);
        using var library = BurstFolder.Open(_folder["bursts"], _site, null, "test", TimeProvider.System);
        Assert.Equal(Figures(RecordAnalysis.Of(library.Bursts[1], _site)), Figures(RecordAnalysis.Of(card.Bursts[1], _site)));
    }

    [Fact]
    public void A_folder_without_bursts_is_no_card_and_a_card_without_a_time_is_asked_about()
    {
        Directory.CreateDirectory(_folder["empty"]);
        var refused = Outcome.Of("collect", _folder["empty"], "--out", _folder["b"]);
        Assert.Equal(2, refused.ExitCode);
        Assert.Contains("is no card of a logger", refused.Error, StringComparison.Ordinal);
        Assert.Equal(2, Log(_folder["empty"]).ExitCode);
    }

    [Theory]
    [InlineData("trace.csv")]
    [InlineData("sub/../trace.csv")]
    [InlineData("link.csv")]
    [InlineData("linked/trace.csv")]
    public void No_output_takes_the_place_of_an_input(string output)
    {
        File.WriteAllText(_folder["trace.csv"], "t_s,p_kPa\n0,1\n1,2\n");
        Directory.CreateDirectory(_folder["sub"]);
        File.CreateSymbolicLink(_folder["link.csv"], _folder["trace.csv"]);
        Directory.CreateSymbolicLink(_folder["linked"], Path.GetDirectoryName(_folder["trace.csv"])!);
        string[][] lines =
        [
            ["analyse", _folder["trace.csv"], "--site", _folder["ram.toml"], "--beats", _folder[output], "--overwrite"],
            ["export", _folder["trace.csv"], "--out", _folder[output], "--overwrite"],
        ];
        Assert.All(lines, line =>
        {
            var refused = Outcome.Of(line);
            Assert.Equal(2, refused.ExitCode);
            Assert.Contains("must not be written over", refused.Error, StringComparison.Ordinal);
            Assert.Equal("t_s,p_kPa\n0,1\n1,2\n", File.ReadAllText(_folder["trace.csv"]));
        });
    }

    private Outcome Log(string input, params string[] more) =>
        Outcome.Of(["log", input, "--site", _folder["ram.toml"], "--store", _folder["season.db"], .. more]);

    private static int Count(Outcome outcome, string ending) =>
        outcome.Out.Split('\n').Count(l => l.TrimEnd().EndsWith(ending, StringComparison.Ordinal));

    private VirtualChain Chain()
    {
        RamDesign design = RamDesigner.Design(_site);
        return new VirtualChain(_site, design, design.Sensor, new SimulationOptions());
    }

    // All but what tells of the source itself.
    private static string Figures(RamAnalysis analysis) => AnalysisJson.ToText(analysis with
    {
        Input = analysis.Input with { File = "any", SourceLosses = [], PartlyUnusable = false },
    });
}
