using Clackbeat.Sensing.Calibrating;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Site.Calibrations;
using Clackbeat.Site.Check;
using Clackbeat.Site.Files;
using Clackbeat.Site.Physics;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;
using CsCheck;

namespace Clackbeat.Site.Tests;

public class CalibrationFileTests
{
    private static readonly SignalPath Path = new() { RangeLowPa = -100e3, RangeHighPa = 1e6 };

    [Fact]
    public void What_is_written_is_read_back_bit_for_bit()
    {
        Calibration made = Made();
        Calibration read = CalibrationFile.Parse(CalibrationText.Of(made), "c.toml");
        Assert.Equal(made.Date, read.Date);
        Assert.Equal(made.Path, read.Path);
        Assert.Equal(made.Points, read.Points);
        Assert.Equal(made.Warnings, read.Warnings);
        Assert.Equal(made.Curve.Coefficients, read.Curve.Coefficients);
        Assert.Equal(made.Curve.Covariance.SelectMany(r => r), read.Curve.Covariance.SelectMany(r => r));
        Assert.Equal(CalibrationText.Of(made), CalibrationText.Of(read));
    }

    [Fact]
    public void A_damaged_file_is_refused_in_words_or_still_whole()
    {
        // Any one character of the file exchanged: never another exception than the one for users.
        string text = CalibrationText.Of(Made());
        Gen.Select(Gen.Int[0, text.Length - 1], Gen.Char["0\"=.x[]-#\n e"]).Sample((at, letter) =>
        {
            string damaged = string.Concat(text.AsSpan(0, at), letter.ToString(), text.AsSpan(at + 1));
            try
            {
                Assert.True(double.IsFinite(CalibrationFile.Parse(damaged, "c.toml").Curve.PressurePaAt(5e5)));
            }
            catch (InputException refused)
            {
                Assert.StartsWith("c.toml:", refused.Message, StringComparison.Ordinal);
            }
        }, iter: 2000);
    }

    [Theory]
    [InlineData("format = \"clackbeat.calibration/1\"", "format = \"clackbeat.calibration/9\"", "calibration/9")]
    [InlineData("span_pa = 1100000.0", "span_pa = 0.0", "span_pa")]
    [InlineData("ripple_share", "riple_share", "ripple_share")]
    [InlineData("reference = \"air\"", "reference = \"moon\"", "moon")]
    public void A_file_that_cannot_stand_is_refused_by_what_is_wrong(string written, string instead, string said)
    {
        string text = CalibrationText.Of(Made());
        Assert.Contains(written, text, StringComparison.Ordinal);
        InputException refused = Assert.Throws<InputException>(
            () => CalibrationFile.Parse(text.Replace(written, instead, StringComparison.Ordinal), "c.toml"));
        Assert.Contains(said, refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("air", ReferenceKind.Air, 0)]
    [InlineData("0 m", ReferenceKind.Air, 0)]
    // ρ(12 °C) = 999.50 kg/m³ (Kell 1975) × 9.80665 × 2 m.
    [InlineData("2 m", ReferenceKind.Column, 19603.4)]
    [InlineData("6 ft 6.75 in", ReferenceKind.Column, 19603.4 * 2.00025 / 2)]
    [InlineData("4.2 bar", ReferenceKind.Gauge, 420e3)]
    // Half of the supply is the middle of the range, −100 to 1000 kPa.
    [InlineData("2.4 V of 4.8 V", ReferenceKind.Electric, 450e3)]
    public void A_reference_is_read_as_people_write_it(string text, ReferenceKind kind, double pressurePa)
    {
        CalibrationPoint point = ReferenceText.Point(text, p => p, Path, new ReferenceMeans { GaugeErrorPa = 1e4 });
        Assert.Equal(kind, point.Reference);
        Assert.Equal(pressurePa, point.PressurePa, 1 + (1e-4 * pressurePa));
    }

    [Theory]
    [InlineData("4.2 bar", "--gauge-error")]
    [InlineData("2.4 V", "of 5.02 V")]
    [InlineData("12 mA", "no reference")]
    [InlineData("full", "no reference")]
    [InlineData("", "no reference")]
    public void A_reference_that_is_none_is_refused_with_what_to_write(string text, string said) => Assert.Contains(
        said,
        Assert.Throws<InputException>(() => ReferenceText.Point(text, p => p, Path, new ReferenceMeans())).Message,
        StringComparison.Ordinal);

    [Fact]
    public void A_site_that_names_its_calibration_reads_counts_by_it()
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("clackbeat-");
        try
        {
            string file = System.IO.Path.Combine(folder.FullName, "ram.toml");
            File.WriteAllText(file, SiteTemplate.Text(Units.Metric).Replace("# calibration =", "calibration =", StringComparison.Ordinal));
            Assert.Contains("no such file", Assert.Throws<InputException>(() => SiteFile.Load(file)).Message, StringComparison.Ordinal);
            File.WriteAllText(System.IO.Path.Combine(folder.FullName, "calibration.toml"), CalibrationText.Of(Made()));
            SensorConversion conversion = SiteSensing.ConversionOf(SiteFile.Load(file));
            Assert.Equal(SensorConversion.Calibrated(Made()).PressurePaAt(1000, 2300), conversion.PressurePaAt(1000, 2300));
            Assert.Contains(
                SiteCheck.Of(SiteFile.Read(file)).Advice, a => Catalogue.English.Say(a).Contains("another range", StringComparison.Ordinal));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static Calibration Made()
    {
        CalibrationPoint At(ReferenceKind kind, string text, double pa) => new()
        {
            Reference = kind,
            Text = text,
            PressurePa = pa,
            OwnUncertaintyPa = 33,
            CommonUncertaintyPa = pa / 700,
            Counts = Path.CountsAt(pa * 1.01) + 3,
            SupplyCounts = pa == 0 ? null : 2301.25,
            CountsScatter = pa == 0 ? null : 2.5,
            Samples = pa == 0 ? null : 5000,
        };
        return Calibrator.Make(
            Path,
            [At(ReferenceKind.Air, "air", 0), At(ReferenceKind.Column, "2 m", 19.6e3), At(ReferenceKind.Gauge, "9 bar \"shed\\gauge\"", 9e5)],
            ChainKnowledge.FromDataSheets(Path, 0.005, 0.02, supplyIsRead: false),
            new DateOnly(2026, 5, 3));
    }
}
