using System.Globalization;
using System.Text.Json.Nodes;
using Clackbeat.Commands.Simulate;
using Clackbeat.Logger;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Framing;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;

namespace Clackbeat.Acceptance;

/// <summary>A logger with a 16-bit converter, from the wire to the figures.</summary>
public sealed class WideRecordingTests : IDisposable
{
    // The external converter of the hardware pages: straight from 0 V to its reference.
    private const string Chip = "converter_bits = 16\nconverter_zero = \"0 V\"\nconverter_full_scale = \"3.3 V\"\nconverter_window = \"0 V to 3.3 V\"\n";

    private readonly TemporaryFolder _folder = new();

    public WideRecordingTests()
    {
        Outcome.Of("site", "new", _folder["board.toml"]);
        File.WriteAllText(_folder["chip.toml"], File.ReadAllText(_folder["board.toml"]).Replace("[logger]\n", "[logger]\n" + Chip, StringComparison.Ordinal));
        File.WriteAllText(
            _folder["ten.toml"], File.ReadAllText(_folder["chip.toml"]).Replace("\nrange = \"-1 bar to 40 bar\"", "\nrange = \"0 bar to 10 bar\"", StringComparison.Ordinal));
    }

    public void Dispose() => _folder.Dispose();

    // By hand: a sensor of 0 to 10 bar puts out 0.25 V to 2.25 V behind the divider, so a step of 3.3 V / 65535 is 25.2 Pa, and one of the
    // board (0.806 mV) 403 Pa. Noise of half a count is 12.6 Pa of the one and 200 Pa of the other; rounding adds 0.29 count.
    [Fact]
    public void A_steady_pressure_scatters_by_a_step_of_25_pascals_and_not_of_400()
    {
        Record("still.cbrec", "ten.toml", new PressureConverter(_ => 100_000, Sensor("ten.toml")), converterMax: 65535, seconds: 4);
        Assert.Equal([(int)Kinds.WideSamples], KindsOfSamples(_folder["still.cbrec"]));

        var exported = Outcome.Of("export", _folder["still.cbrec"], "--site", _folder["ten.toml"], "--out", _folder["still.csv"]);
        Assert.True(exported.ExitCode == 0, exported.Error);
        double[] pressures = [.. File.ReadLines(_folder["still.csv"]).Skip(1).Select(r => 1e3 * double.Parse(r.Split(',')[1], CultureInfo.InvariantCulture))];
        Assert.InRange(pressures.Average(), 100_000 - 15, 100_000 + 15);
        double mean = pressures.Average();
        Assert.InRange(Math.Sqrt(pressures.Average(p => Math.Pow(p - mean, 2))), 10, 20);
    }

    [Fact]
    public void A_rams_figures_are_those_of_the_boards_own_converter_within_their_uncertainty()
    {
        JsonNode wide = Analysed("chip", 65535);
        JsonNode narrow = Analysed("board", 4095);
        Assert.Equal("beating", (string)wide["state"]!);
        (double rate, double rateU) = Figure(wide["beats"]!["rate_per_min"]!);
        (double otherRate, double otherRateU) = Figure(narrow["beats"]!["rate_per_min"]!);
        Assert.InRange(rate - otherRate, -double.Hypot(rateU, otherRateU), double.Hypot(rateU, otherRateU));
        foreach (string name in (string[])["delivered_l_per_min", "waste_l_per_min"])
        {
            (double value, double u) = Figure(wide["flow"]![name]!);
            (double other, double otherU) = Figure(narrow["flow"]![name]!);
            Assert.InRange(value - other, -double.Hypot(u, otherU), double.Hypot(u, otherU));
        }
    }

    [Fact]
    public void A_site_file_of_another_converter_is_refused_with_the_key_to_set()
    {
        Record("still.cbrec", "chip.toml", new PressureConverter(_ => 100_000, Sensor("chip.toml")), converterMax: 65535, seconds: 2);
        var refused = Outcome.Of("analyse", _folder["still.cbrec"], "--site", _folder["board.toml"]);
        Assert.Equal(2, refused.ExitCode);
        Assert.Contains("counts to 65535, but the site file's counts to 4095", refused.Error, StringComparison.Ordinal);
        Assert.Contains("Set converter_bits = 16 under [logger]", refused.Error, StringComparison.Ordinal);
    }

    // What a lone logger must keep free on its card before a burst covers what the burst then takes.
    [Fact]
    public void Bursts_of_wide_samples_fit_the_room_that_is_reserved_for_them()
    {
        VirtualLogger.VirtualLogger.RunAlone(
            new PressureConverter(_ => 100_000, Sensor("chip.toml")),
            new VirtualLoggerOptions
            {
                CardFolder = _folder["card"],
                Settings = new LoggerSettings { ConverterMax = 65535, WorksAlone = true, BurstLengthMilliseconds = 10_000, BurstIntervalMilliseconds = 3_600_000 },
            },
            1.5 * 3600);
        var collected = Outcome.Of("collect", _folder["card"], "--out", _folder["bursts"], "--started", "2026-05-01T09:00:00Z", "--site", _folder["chip.toml"]);
        Assert.True(collected.ExitCode == 0, collected.Error);
        string[] bursts = Directory.GetFiles(_folder["bursts"], "*.cbrec", SearchOption.AllDirectories);
        Assert.Equal(2, bursts.Length);
        Assert.Equal([(int)Kinds.WideSamples], KindsOfSamples(Directory.GetFiles(_folder["card"], "00000001.CBF", SearchOption.AllDirectories).Single()));
        var exported = Outcome.Of("export", bursts[0], "--site", _folder["chip.toml"], "--out", _folder["burst.csv"]);
        Assert.True(exported.ExitCode == 0, exported.Error);
        Assert.InRange(File.ReadLines(_folder["burst.csv"]).Count(), 9_990, 10_010);
    }

    private JsonNode Analysed(string name, int converterMax)
    {
        RamSite site = SiteFile.Load(_folder[name + ".toml"]);
        RamDesign design = RamDesigner.Design(site);
        var chain = new VirtualChain(site, design, design.Sensor, new SimulationOptions());
        Record(name + ".cbrec", name + ".toml", chain.Source, converterMax, seconds: 20);
        var analysed = Outcome.Of("analyse", _folder[name + ".cbrec"], "--site", _folder[name + ".toml"], "--json");
        Assert.True(analysed.ExitCode == 0, analysed.Error);
        return JsonNode.Parse(analysed.Out)!;
    }

    private void Record(string recording, string site, IConverterSource source, int converterMax, int seconds)
    {
        using ServedLogger logger = VirtualLogger.VirtualLogger.Serve(
            source, new VirtualLoggerOptions { Pace = Pace.AsFastAsRead, Settings = new LoggerSettings { ConverterMax = converterMax } }, CancellationToken.None);
        var recorded = Outcome.Of("record", logger.PortPath!, "--site", _folder[site], "--out", _folder[recording], "--for", $"{seconds}s");
        Assert.True(recorded.ExitCode == 0, recorded.Error);
    }

    private SensorModel Sensor(string site) => new() { Conversion = SiteSensing.ConversionOf(SiteFile.Load(_folder[site])) };

    // The frames lie verbatim in a recording as on the line; what is between them is no frame.
    private static IEnumerable<int> KindsOfSamples(string path)
    {
        FrameDecoder decoder = new();
        return [.. File.ReadAllBytes(path).Where(decoder.Push).Select(_ => (int)decoder.Body[0]).Where(k => k is Kinds.Samples or Kinds.WideSamples).Distinct()];
    }

    private static (double Value, double U) Figure(JsonNode figure) => ((double)figure["value"]!, (double)figure["u"]!);
}
