using Clackbeat.Hydraulics.Water;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.States;
using Clackbeat.Signal.Tests.Diagnosis;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.Words;

namespace Clackbeat.Signal.Tests.Analysis;

/// <summary>Absolute pressure is told from gauge pressure, whatever the ram does, and a gauge record is never refused.</summary>
public class ZeroCheckTests
{
    private static readonly Dictionary<string, RamSite> Sites = new()
    {
        ["steel"] = Rams.Steel,
        ["pvc"] = Rams.Pvc,
        ["polyethylene"] = Rams.Polyethylene,
        // The supply head alone is an atmosphere here, so a level near 100 kPa proves nothing by itself.
        ["tall"] = Rams.Site(Clackbeat.Hydraulics.Pipes.PipeMaterial.GalvanisedSteel, 40, 0.0525, 0.0039, 10.3, 60),
    };

    public static TheoryData<string, string, double> Records()
    {
        var data = new TheoryData<string, string, double>();
        foreach (string site in Sites.Keys)
        {
            foreach (string condition in new[] { Conditions.Healthy, Conditions.SupplyStarved, Conditions.AirVesselWaterlogged, Conditions.AirInDrivePipe, Conditions.DeliveryValveLate, Conditions.StoppedShut, Conditions.StoppedOpen })
            {
                data.Add(site, condition, 0);
                data.Add(site, condition, 2500);
            }
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(Records))]
    public void A_gauge_record_stands_and_the_same_with_an_atmosphere_more_or_less_does_not(string name, string condition, double altitudeM)
    {
        RamSite low = Sites[name] with { Sensor = Sites[name].Sensor with { RangeLowPa = -100e3, RangeHighPa = 2e6 } };
        RamSite site = low with { AltitudeM = altitudeM };
        Fault fault = condition == Conditions.Healthy ? Fault.None : Clinic.Ill(condition, 0.8);

        // A gauge reads the same at any altitude.
        (double[] times, double[] gauge, _) = Rams.Record(low, 25, fault: fault, character: RamCharacter.Lively);

        // ISO 2533:1975, table 1: 101 325 Pa at sea level and 74 682 Pa at 2500 m.
        double airPa = altitudeM == 0 ? 101_325 : 74_682;
        RamAnalysis plain = Rams.Analyse(site, times, gauge, measuresFlow: false);
        RamAnalysis over = Rams.Analyse(site, times, [.. gauge.Select(p => p + airPa)]);
        RamAnalysis under = Rams.Analyse(site, times, [.. gauge.Select(p => p - airPa)]);

        Assert.False(plain.Zero.IsWrong);
        Assert.Equal(ZeroFault.AbsoluteReadAsGauge, over.Zero.Fault);
        Assert.Equal(ZeroFault.GaugeReadAsAbsolute, under.Zero.Fault);
        Assert.All(new[] { over, under }, wrong =>
        {
            Assert.Equal(Conditions.SensorFault, Assert.Single(wrong.Diagnosis).Condition);
            Assert.Null(wrong.Flow.DeliveredM3PerS);
            Assert.Null(wrong.Efficiency.DAubuisson);
        });
    }

    [Fact]
    public void Without_an_altitude_the_thin_air_of_a_mountain_is_seen_too()
    {
        (double[] times, double[] gauge, _) = Rams.Record(Rams.Steel, 25);
        Assert.Equal(ZeroFault.AbsoluteReadAsGauge, Rams.Analyse(Rams.Steel, times, [.. gauge.Select(p => p + 60e3)]).Zero.Fault);
    }

    [Fact]
    public void A_still_record_that_fits_both_is_told_so_and_not_refused()
    {
        // 10.3 m of water press with 101 kPa: gauge, shut; or absolute, open to the air.
        double[] times = [.. Enumerable.Range(0, 20_000).Select(i => i * 1e-3)];
        var random = new Random(4);
        double[] still = [.. times.Select(_ => 101e3 + (500 * (random.NextDouble() - 0.5)))];
        RamAnalysis analysis = Rams.Analyse(Sites["tall"], times, still);
        Assert.Equal(ZeroFault.Undecided, analysis.Zero.Fault);
        Assert.Contains(analysis.Limits, l => l.Code == "zero-undecided");
    }

    [Fact]
    public void The_remedy_names_the_option_and_the_key()
    {
        (double[] times, double[] gauge, _) = Rams.Record(Rams.Steel, 25);
        ZeroCheck zero = Rams.Analyse(Rams.Steel, times, [.. gauge.Select(p => p + Constants.StandardAtmospherePa)]).Zero;
        string refusal = Catalogue.English.Say(ZeroFacts.Refusal("monday.csv", zero));
        Assert.StartsWith("monday.csv: ", refusal, StringComparison.Ordinal);
        Assert.Contains("--absolute", refusal, StringComparison.Ordinal);
        Assert.Contains("pressure = \"absolute\" under [sensor]", refusal, StringComparison.Ordinal);
    }

    [SkippableTheory]
    [InlineData("given")]
    [InlineData("wild")]
    public void No_example_trace_is_refused_and_none_with_an_atmosphere_passes(string kind)
    {
        string? folder = Rams.TracesFolder(kind);
        Skip.If(folder is null, "The example traces are not beside this checkout.");
        Assert.All(Directory.EnumerateFiles(folder, "*.csv").Where(f => File.Exists(SiteOf(f))), path =>
        {
            RamSite site = Rams.LoadSite(SiteOf(path));
            (double[] timesS, double[] pressuresPa) = Rams.Read(path);
            Assert.False(Rams.Analyse(site, timesS, pressuresPa, measuresFlow: false).Zero.IsWrong, path);
            foreach ((double? altitudeM, double airPa) in new (double?, double)[] { (null, 101_325), (0, 101_325), (2500, 74_682) })
            {
                ZeroCheck zero = Rams.Analyse(
                    site with { AltitudeM = altitudeM }, timesS, [.. pressuresPa.Select(p => p + airPa)], measuresFlow: false).Zero;
                Assert.True(zero.IsWrong, $"{path} at {altitudeM} m");
            }
        });
    }

    private static string SiteOf(string path) =>
        Path.Combine(Path.GetDirectoryName(path)!, Path.GetFileName(path).Split('-')[0] + ".site.toml");
}
