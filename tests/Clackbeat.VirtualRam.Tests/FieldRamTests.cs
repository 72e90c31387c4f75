using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Field;
using Clackbeat.VirtualRam.Sensing;

namespace Clackbeat.VirtualRam.Tests;

public class FieldRamTests
{
    [Fact]
    public void No_two_sets_share_a_ram()
    {
        var seeds = Enum.GetValues<FieldSet>().SelectMany(set => Enumerable.Range(0, 20_000).Select(n => FieldRam.SeedOf(set, n))).ToList();
        Assert.Equal(seeds.Count, seeds.Distinct().Count());

        // Nor one that looks the same: a bore, a length and a level that agree to eight digits.
        var rams = Enum.GetValues<FieldSet>().SelectMany(set => FieldRam.Of(set, 60)).ToList();
        Assert.Equal(rams.Count, rams.Select(r => (r.Built.DrivePipe.BoreM, r.Built.DrivePipe.LengthM, r.Built.Supply.HeadM)).Distinct().Count());
    }

    [Fact]
    public void A_number_is_always_the_same_ram()
    {
        (FieldRam one, FieldRam other) = (FieldRam.Of(FieldSet.Checking, 3).Last(), FieldRam.Of(FieldSet.Checking, 3).Last());
        Assert.Equal(one.Ram.WasteValve, other.Ram.WasteValve);
        Assert.Equal(one.Site.Supply, other.Site.Supply);
    }

    [Fact]
    public void Rams_are_drawn_over_the_whole_domain_and_never_outside()
    {
        FieldDomain domain = FieldDomain.Usual;
        var rams = FieldRam.Of(FieldSet.Checking, 200).ToList();
        Assert.All(rams, r => Assert.True(domain.SupplyHeadM.Contains(r.Built.Supply.HeadM) && domain.BoreM.Contains(r.Built.DrivePipe.BoreM)));
        Assert.All(domain.Materials, m => Assert.Contains(rams, r => r.Built.DrivePipe.Material == m.Material));
        Assert.All(Enum.GetValues<WasteValveKind>(), k => Assert.Contains(rams, r => r.Built.WasteValve.Kind == k));
        Assert.All(domain.RatesHz, hz => Assert.Contains(rams, r => r.Sensor.RateHz == hz));
        Assert.Contains(rams, r => r.Built.DrivePipe.IsMixed);
        Assert.Contains(rams, r => r.Built.Supply.StandPipe is not null);
        Assert.Contains(rams, r => r.Ram.Supply.StandPipe is { NeighbourM3PerS: > 0 });
        Assert.Contains(rams, r => r.Ram.Body.SnifterAreaM2 > 0);
        // A file that keeps silent of what is there.
        Assert.Contains(rams, r => r.Built.AirVessel.SnifterBoreM is not null && r.Site.AirVessel.SnifterBoreM is null);
        // The level told is wrong by a centimetre, one standard deviation: 200 rams show that within a tenth.
        Assert.Equal(0.01, Math.Sqrt(rams.Average(r => Math.Pow(r.Site.Supply.HeadM - r.Built.Supply.HeadM, 2))), 0.0015);
    }

    [Fact]
    public void Most_drawn_rams_beat_and_keep_their_water()
    {
        int beating = 0;
        var rams = FieldRam.Of(FieldSet.Checking, 24).ToList();
        foreach (FieldRam drawn in rams)
        {
            var run = new RamSimulation(drawn.Ram, drawn.Sensor, new SimulationOptions { WarmUpS = 10 });
            double before = run.Engine.StoredM3;
            (double drew, double left) = (0.0, 0.0);
            run.Stepped += e =>
            {
                drew += e.StepS * e.InflowM3PerS;
                left += e.StepS * (e.WasteFlowM3PerS + e.DeliveryFlowM3PerS);
            };
            foreach (VirtualSample sample in run.Samples(10))
            {
                Assert.True(double.IsFinite(sample.TruePressurePa));
            }

            beating += run.Totals.Beats > 3 ? 1 : 0;
            Assert.Equal(drew, left + run.Engine.StoredM3 - before, 2e-5 * drew);
        }

        Assert.True(beating >= 0.8 * rams.Count, $"{beating} of {rams.Count} beat");
    }
}
