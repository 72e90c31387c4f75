using System.Globalization;
using System.Text.Json.Nodes;
using Clackbeat.Recording.Reading;
using Clackbeat.Site.Files;
using Clackbeat.Site.Physics;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.VirtualLogger.Wires;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;

namespace Clackbeat.Acceptance;

/// <summary>
/// A sensor that is off its data sheet, calibrated and recorded as a keeper does. The truth is the pressure before the
/// sensor: what its data sheet reads, less the error it was given.
/// </summary>
public sealed class CalibratedRecordingTests : IDisposable
{
    // Three per cent too steep and 12 kPa too high, of a range of 1000 kPa.
    private const double Gain = 1.03;
    private const double OffsetKPa = 12;

    // The aim of a calibration from simple means: half a per cent of the range.
    private const double AimKPa = 5;

    private readonly TemporaryFolder _folder = new();
    private readonly SensorModel _sensor;

    public CalibratedRecordingTests()
    {
        Outcome.Of("site", "new", _folder["plain.toml"]);
        string plain = File.ReadAllText(_folder["plain.toml"]);
        Assert.Contains("\n[sensor]\n", plain, StringComparison.Ordinal);
        File.WriteAllText(
            _folder["ram.toml"], plain.Replace("\n[sensor]\n", "\n[sensor]\ncalibration = \"my.toml\"\n", StringComparison.Ordinal));
        _sensor = new SensorModel { Conversion = SiteSensing.ConversionOf(SiteFile.Load(_folder["plain.toml"])) };
    }

    public void Dispose() => _folder.Dispose();

    [SkippableFact]
    public void A_calibration_travels_in_the_recording_and_corrects_what_is_analysed_and_exported()
    {
        Skip.IfNot(PseudoTerminal.IsSupported, "this system has no pseudo-terminals");
        var calibrated = Outcome.Of(
        [
            "calibrate", "--site", _folder["plain.toml"], "--out", _folder["my.toml"], "--gauge-error", "2 kPa",
            "--point", "air", Counts(0), Supply, "--point", "3 bar", Counts(300), Supply, "--point", "8 bar", Counts(800), Supply,
        ]);
        Assert.True(calibrated.ExitCode == 0, calibrated.Error);
        using (ServedLogger logger = Ram())
        {
            var recorded = Outcome.Of(
                "record", logger.PortPath!, "--site", _folder["ram.toml"], "--out", _folder["ram.cbrec"], "--for", "20s");
            Assert.True(recorded.ExitCode == 0, recorded.Error);
        }

        Assert.Contains(
            RecordingScan.Of(_folder["ram.cbrec"]).Sessions.Single().Documents,
            d => d.Name == "my.toml" && d.Text == File.ReadAllText(_folder["my.toml"]));
        double off = MeanKPa(_folder["plain.toml"]);
        Assert.InRange(MeanKPa(_folder["ram.toml"]), ((off - OffsetKPa) / Gain) - AimKPa, ((off - OffsetKPa) / Gain) + AimKPa);

        // What the recording itself carries is enough: nothing of the keeper's folder is asked for.
        File.Delete(_folder["my.toml"]);
        File.Delete(_folder["ram.toml"]);
        double[] exported = Exported("carried.csv");
        double[] bySheet = Exported("sheet.csv", "--site", _folder["plain.toml"]);
        Assert.Equal(bySheet.Length, exported.Length);
        Assert.All(exported.Zip(bySheet), p => Assert.InRange(p.First - ((p.Second - OffsetKPa) / Gain), -AimKPa, AimKPa));
        Assert.Contains(exported.Zip(bySheet), p => Math.Abs(p.First - p.Second) > 2 * AimKPa);
    }

    private string Supply => Math.Round(_sensor.SupplyCounts).ToString(CultureInfo.InvariantCulture);

    // What the sensor's error makes of a true pressure.
    private static double OffPa(double pressurePa) => (Gain * pressurePa) + (1000 * OffsetKPa);

    private string Counts(double pressureKPa) =>
        Math.Round(_sensor.CountsAt(OffPa(1000 * pressureKPa))).ToString(CultureInfo.InvariantCulture);

    private ServedLogger Ram()
    {
        RamDesign design = RamDesigner.Design(SiteFile.Load(_folder["plain.toml"]));
        double[] off = [.. new RamSimulation(design.Ram, design.Sensor).Samples(40).Select(s => OffPa(s.PressurePa))];
        return VirtualLogger.VirtualLogger.Serve(
            PressureConverter.FromSamples(off, design.Sensor.RateHz, _sensor),
            new VirtualLoggerOptions { Pace = Pace.AsFastAsRead },
            CancellationToken.None);
    }

    private double MeanKPa(string site)
    {
        var analysis = Outcome.Of("analyse", _folder["ram.cbrec"], "--site", site, "--json");
        Assert.True(analysis.ExitCode == 0, analysis.Error);

        // The beats tell most of an unknown zero error too, and the mean is given without it; here it is put back.
        JsonNode told = JsonNode.Parse(analysis.Out)!;
        return (double)told["pressure"]!["mean_kpa"]! + ((double?)told["drive_pipe"]!["sensor_bias_kpa"] ?? 0);
    }

    private double[] Exported(string name, params string[] more)
    {
        var done = Outcome.Of(["export", _folder["ram.cbrec"], "--out", _folder[name], .. more]);
        Assert.True(done.ExitCode == 0, done.Error);
        return [.. File.ReadLines(_folder[name]).Skip(1).Select(r => double.Parse(r.Split(',')[1], CultureInfo.InvariantCulture))];
    }
}
