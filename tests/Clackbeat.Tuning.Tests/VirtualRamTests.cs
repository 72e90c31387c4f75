using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Site.Model;
using Clackbeat.Tuning.Search;
using Clackbeat.Tuning.Trials;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.Tuning.Tests;

/// <summary>
/// Tuning whole virtual rams by their pressure alone. The best setting is known from runs over the whole range, in which
/// the ram itself tells what it delivers.
/// </summary>
public class VirtualRamTests
{
    private const double TrialS = 60;

    /// <summary>Rams drawn at random; six with CLACKBEAT_LONG, one otherwise, since each takes half a minute.</summary>
    public static TheoryData<int> Seeds =>
        [.. Enumerable.Range(0, Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1" ? 6 : 1)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Eight_trials_of_a_minute_come_within_three_per_cent_of_the_most_water(int seed)
    {
        RamSite site = Draw(new Random(100 + seed));
        RamDesign design = RamDesigner.Design(site);
        var knob = Knob.Parse("stroke 50 to 160 %");
        TuningSession session = new() { Ram = site.Name, Knob = knob, Aim = TuningAim.MostDelivered };
        while (NextSetting.Of(session, 100).Setting is { } setting)
        {
            Trial trial = Measure(site, design, setting, session.Trials.Count);
            Assert.Empty(TrialDoubts.Of(session, site, trial, site.Name));
            session = session.With(trial);
        }

        Trial best = NextSetting.Of(session).Best!;
        double most = Enumerable.Range(0, 12).Max(i => Delivered(design, 50 + (10 * i)));
        double share = Delivered(design, best.Setting) / most;
        Assert.True(share >= 0.97, $"{best.Setting:0} % delivers {share:p1} of the most; tried {string.Join(", ", session.Trials.Select(t => $"{t.Setting:0}"))}.");
    }

    private static Trial Measure(RamSite site, RamDesign design, double percent, int seed)
    {
        RamSimulation ram = Run(design, percent, 200 + seed);
        VirtualRam.Sensing.VirtualSample[] samples = [.. ram.Samples(TrialS)];
        var reader = new TrialReader(site);
        reader.Add([.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);
        return reader.Finish(percent, "virtual");
    }

    private static double Delivered(RamDesign design, double percent)
    {
        RamSimulation ram = Run(design, percent, 1);
        foreach (VirtualRam.Sensing.VirtualSample _ in ram.Samples(20))
        {
        }

        RamTotals totals = ram.Totals;
        return totals.Beats > 0 ? totals.DeliveredM3 / totals.DurationS : 0;
    }

    private static RamSimulation Run(RamDesign design, double percent, int seed)
    {
        ValveParameters valve = design.Ram.WasteValve;
        RamParameters ram = design.Ram with
        {
            WasteValve = valve with { TravelM = 0.01 * percent * valve.TravelM },
            LongestStepS = 2e-4,
            MostReaches = 200,
        };
        return new RamSimulation(ram, design.Sensor, new SimulationOptions { Seed = seed });
    }

    private static RamSite Draw(Random random)
    {
        double headM = 1.5 + (3 * random.NextDouble());
        (PipeMaterial material, double wallShare) = random.Next(2) == 0 ? (PipeMaterial.GalvanisedSteel, 0.075) : (PipeMaterial.PvcU, 0.09);
        double boreM = 0.035 + (0.045 * random.NextDouble());
        return new RamSite
        {
            Name = "a ram of the tests",
            Supply = new Supply { HeadM = headM, WaterTemperatureC = 12 },
            DrivePipe = new DrivePipe { Material = material, LengthM = headM * (4 + (3 * random.NextDouble())), BoreM = boreM, WallM = wallShare * boreM },
            Delivery = new Delivery { HeadM = headM * (5 + (4 * random.NextDouble())) },
            Sensor = new Sensor { RangeLowPa = 0, RangeHighPa = 1e6 },
        };
    }
}
