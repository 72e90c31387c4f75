using System.Text.Json;
using Clackbeat.Site.Calibrations;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Wires;

namespace Clackbeat.Acceptance;

public sealed class CalibrateCommandTests : IDisposable
{
    private const string Ram = """
        site.name = "Bench"
        supply = { head = "3 m", water_temperature = "12 °C" }
        drive_pipe = { material = "PVC-U", length = "12 m", bore = "40 mm" }
        delivery.head = "18 m"
        sensor = { range = "0 kPa to 1000 kPa", output = "0.5 V to 4.5 V" }
        """;

    private readonly TemporaryFolder folder = new();

    public CalibrateCommandTests() => File.WriteAllText(folder["ram.toml"], Ram);

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Typed_points_make_a_file_that_reads_back_and_is_never_written_over_unasked()
    {
        // By the data sheets: 0.25 V and 2.25 V at the pin, counted from 142 mV at 0.8056 mV each.
        string[] points = ["--point", "air", "134", "2306", "--point", "5 m", "256", "2306", "--point", "9 bar", "2368", "2306", "--gauge-error", "6 kPa"];
        Outcome done = Calibrate([.. points, "--out", folder["c.toml"]]);
        Assert.Equal(0, done.ExitCode);
        Assert.All(done.Out.Split('\n'), line => Assert.True(line.Length <= 80, line));
        Assert.Equal(900e3, CalibrationFile.Load(folder["c.toml"]).Points[2].NominalPa, 1e3);

        string before = File.ReadAllText(folder["c.toml"]);
        Outcome again = Calibrate([.. points, "--out", folder["c.toml"]]);
        Assert.Equal(2, again.ExitCode);
        Assert.Contains("--overwrite", again.Error, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllText(folder["c.toml"]));
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
        File.WriteAllText(folder["p.csv"], "# a comment\nair,134,2306\n2 m;183\n");
        Outcome outcome = Calibrate("--points", folder["p.csv"]);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains("line 3", outcome.Error, StringComparison.Ordinal);
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
                Outcome taken = Live(_ => pressurePa, "--points", folder["live.csv"], "--reference", reference, "--for", "1 s");
                Assert.Equal((0, reference), (taken.ExitCode, reference));
            }

            Outcome beating = Live(t => 100e3 + (80e3 * Math.Sin(6 * t)), "--points", folder["live.csv"], "--reference", "5 m", "--for", "2 s");
            Assert.Equal(2, beating.ExitCode);
            Assert.Contains("does not stand still", beating.Error, StringComparison.Ordinal);
            Assert.Equal(3, File.ReadAllLines(folder["live.csv"]).Length);

            using JsonDocument fit = JsonDocument.Parse(Calibrate("--points", folder["live.csv"], "--json").Out);
            Assert.All(
                fit.RootElement.GetProperty("points").EnumerateArray(),
                p => Assert.InRange(p.GetProperty("residual_kpa").GetDouble(), -0.2, 0.2));
        });
    }

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
        return Outcome.Of(["calibrate", .. hasPort ? more[..1] : [], "--site", folder["ram.toml"], .. hasPort ? more[1..] : more]);
    }
}
