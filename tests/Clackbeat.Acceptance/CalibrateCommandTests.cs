using System.Text.Json;
using System.Text.RegularExpressions;
using Clackbeat.Site.Calibrations;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.VirtualLogger.Wires;

namespace Clackbeat.Acceptance;

public sealed partial class CalibrateCommandTests : IDisposable
{
    private const string Ram = """
        site.name = "Bench"
        supply = { head = "3 m", water_temperature = "12 °C" }
        drive_pipe = { material = "PVC-U", length = "12 m", bore = "40 mm" }
        delivery.head = "18 m"
        sensor = { range = "0 kPa to 1000 kPa", output = "0.5 V to 4.5 V" }
        """;

    private readonly TemporaryFolder _folder = new();

    public CalibrateCommandTests() => File.WriteAllText(_folder["ram.toml"], Ram);

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Typed_points_make_a_file_that_reads_back_and_is_never_written_over_unasked()
    {
        // By the data sheets: 0.25 V and 2.25 V at the pin, counted from 142 mV at 0.8056 mV each.
        string[] points = ["--point", "air", "134", "2306", "--point", "5 m", "256", "2306", "--point", "9 bar", "2368", "2306", "--gauge-error", "6 kPa"];
        Outcome done = Calibrate([.. points, "--out", _folder["c.toml"]]);
        Assert.Equal(0, done.ExitCode);
        Assert.All(done.Out.Split('\n'), line => Assert.True(line.Length <= 80, line));
        Assert.Equal(900e3, CalibrationFile.Load(_folder["c.toml"]).Points[2].NominalPa, 1e3);

        string before = File.ReadAllText(_folder["c.toml"]);
        Outcome again = Calibrate([.. points, "--out", _folder["c.toml"]]);
        Assert.Equal(2, again.ExitCode);
        Assert.Contains("--overwrite", again.Error, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllText(_folder["c.toml"]));
    }

    [Fact]
    public void Low_columns_alone_are_told_to_know_little_of_the_top()
    {
        Outcome done = Calibrate("--point", "air", "134", "2306", "--point", "2 m", "183", "2306", "--point", "5 m", "256", "2306");
        Assert.Equal(0, done.ExitCode);
        Assert.Contains("The points end at", done.Out, StringComparison.Ordinal);
        Assert.Contains("Nothing was written", done.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("air", "--point")]
    [InlineData("air five", "five")]
    [InlineData("air 5000", "0 to 4095")]
    [InlineData("4bar 900", "--gauge-error")]
    [InlineData("5m/s 900", "no reference")]
    public void A_wrong_point_is_refused_in_words(string point, string said)
    {
        Outcome outcome = Calibrate(["--point", .. point.Split(' ')]);
        Assert.Equal((2, ""), (outcome.ExitCode, outcome.Out));
        Assert.Contains(said, outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_wrong_line_of_the_points_file_is_named()
    {
        File.WriteAllText(_folder["p.csv"], "# a comment\nair,134,2306\n2 m;183\n");
        Outcome outcome = Calibrate("--points", _folder["p.csv"]);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains("line 3", outcome.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void The_examples_of_the_help_work_with_the_sample_site(bool us)
    {
        string site = _folder[us ? "us.toml" : "metric.toml"];
        Assert.Equal(0, Outcome.Of(["site", "new", site, .. us ? ["--us"] : Array.Empty<string>()]).ExitCode);
        string[] examples = [.. Outcome.Of("calibrate", "--help").Out.Split('\n').Select(l => l.Trim())
            .Where(l => l.StartsWith("clackbeat calibrate --site my-ram.toml --point ", StringComparison.Ordinal))];
        string example = Assert.Single(examples);
        string[] words = [.. Words().Matches(example).Skip(1).Select(m => m.Value.Trim('"'))];
        words[Array.IndexOf(words, "my-ram.toml")] = site;
        words[Array.IndexOf(words, "calibration.toml")] = _folder[us ? "c1.toml" : "c2.toml"];
        var done = Outcome.Of(words);
        Assert.Equal((0, ""), (done.ExitCode, done.ExitCode == 0 ? "" : done.Error));
        // What the sample site's data sheets say of these counts: nothing that would need a thought about range or divider.
        Assert.DoesNotContain("data sheets, which allow", done.Out, StringComparison.Ordinal);
    }

    [Theory]
    // A sensor of 0 to 10 bar read with a site file of -1 to 40 bar: 0.49 bar of water where the counts say 2.0 bar.
    [InlineData("-1 bar to 40 bar", "air,134,2306", "5 m,256,2306", "absolute")]
    // 16.4 ft of water typed as metres.
    [InlineData("0 bar to 10 bar", "air,134,2306", "16.4 m,256,2306", "metres and feet")]
    [InlineData("0 bar to 10 bar", "5 m,134,2306", "air,256,2306", "exchanged")]
    [InlineData("0 bar to 10 bar", "air,134,2306", "500 m,256,2306", "power of ten")]
    // A divider of 2/3 where the site file says 1/2: 0.333 V and 0.359 V at the pin for 0 and 0.49 bar.
    [InlineData("0 bar to 10 bar", "air,237,2306", "50 m,2022,2306", "divider")]
    public void Points_that_no_chain_near_the_data_sheets_gives_are_refused_with_what_is_likely_wrong(
        string range, string first, string second, string said)
    {
        File.WriteAllText(_folder["ram.toml"], Ram.Replace("0 kPa to 1000 kPa", range, StringComparison.Ordinal));
        File.WriteAllText(_folder["p.csv"], $"{first}\n{second}\n");
        Outcome refused = Calibrate("--points", _folder["p.csv"], "--out", _folder["c.toml"]);
        Assert.Equal((2, ""), (refused.ExitCode, refused.Out));
        Assert.Contains(said, refused.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(_folder["c.toml"]));

        Outcome insisted = Calibrate("--points", _folder["p.csv"], "--out", _folder["c.toml"], "--insist", "the sheet is a misprint");
        Assert.Equal(0, insisted.ExitCode);
        Assert.Contains(CalibrationFile.Load(_folder["c.toml"]).Warnings, w => w.Text.Contains("the sheet is a misprint", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("height [cm],counts,supply_counts\n0,134,2306\n500,256,2306\n")]
    [InlineData("counts;supply;height (m)\n134;2306;0\n256;2306;5,00\n")]
    [InlineData("note\thead_ft\tcounts\tsupply\nin the shed\t0\t134\t2306\nby the well\t16.404\t256\t2306\n")]
    [InlineData("# counts,supply counts,reference\n134,2306,air\n256,2306,5 m\n")]
    public void A_header_names_columns_and_unit(string text)
    {
        File.WriteAllText(_folder["p.csv"], text);
        Outcome done = Calibrate("--points", _folder["p.csv"], "--json");
        Assert.Equal((0, ""), (done.ExitCode, done.ExitCode == 0 ? "" : done.Error));
        using var fit = JsonDocument.Parse(done.Out);
        JsonElement upper = fit.RootElement.GetProperty("points")[1];
        // 999.5 kg/m³ × 9.80665 m/s² × 5 m.
        Assert.Equal(49.01, upper.GetProperty("pressure_kpa").GetDouble(), 0.02);
        Assert.Equal(256, upper.GetProperty("counts").GetDouble());
        Assert.Equal(2306, upper.GetProperty("supply_counts").GetDouble());
    }

    [Theory]
    [InlineData("height [L],counts\n0,134\n", "no unit of a height or a pressure")]
    [InlineData("height [m],volts\n0,134\n", "no column of counts")]
    [InlineData("height [m],counts [V]\n0,0.25\n", "where counts are wanted")]
    public void A_header_that_can_not_be_meant_is_told(string text, string said)
    {
        File.WriteAllText(_folder["p.csv"], text);
        Outcome refused = Calibrate("--points", _folder["p.csv"]);
        Assert.Equal(2, refused.ExitCode);
        Assert.Contains(said, refused.Error, StringComparison.Ordinal);
        Assert.Contains("line 1", refused.Error, StringComparison.Ordinal);
    }

    [SkippableFact(Timeout = 60_000)]
    public async Task A_live_logger_gives_points_that_stand_still_and_refuses_a_beating_one()
    {
        Skip.IfNot(PseudoTerminal.IsSupported, "this system has no pseudo-terminals");
        await Task.Run(() =>
        {
            // 999.5 kg/m³ × 9.80665 × 2 m.
            foreach ((string reference, double pressurePa) in new[] { ("air", 0.0), ("2 m", 19603.4) })
            {
                Outcome taken = Live(_ => pressurePa, "--points", _folder["live.csv"], "--reference", reference, "--for", "1 s");
                Assert.Equal((0, reference), (taken.ExitCode, reference));
            }

            Outcome beating = Live(t => 100e3 + (80e3 * Math.Sin(6 * t)), "--points", _folder["live.csv"], "--reference", "5 m", "--for", "2 s");
            Assert.Equal(2, beating.ExitCode);
            Assert.Contains("does not stand still", beating.Error, StringComparison.Ordinal);
            Assert.Equal(3, File.ReadAllLines(_folder["live.csv"]).Length);

            using var fit = JsonDocument.Parse(Calibrate("--points", _folder["live.csv"], "--json").Out);
            Assert.All(
                fit.RootElement.GetProperty("points").EnumerateArray(),
                p => Assert.InRange(p.GetProperty("residual_kpa").GetDouble(), -0.2, 0.2));
        });
    }

    [GeneratedRegex("\"[^\"]*\"|[^ ]+")]
    private static partial Regex Words();

    private Outcome Live(Func<double, double?> pressurePa, params string[] more)
    {
        using ServedLogger served = VirtualLogger.VirtualLogger.Serve(
            new PressureConverter(pressurePa, new SensorModel()), new VirtualLoggerOptions(), CancellationToken.None);
        return Calibrate([served.PortPath!, .. more]);
    }

    private Outcome Calibrate(params string[] more)
    {
        // The port is a word of its own and stands before the options.
        bool hasPort = more[0].StartsWith('/');
        return Outcome.Of(["calibrate", .. hasPort ? more[..1] : [], "--site", _folder["ram.toml"], .. hasPort ? more[1..] : more]);
    }
}
