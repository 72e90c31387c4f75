using Clackbeat.Hydraulics.Water;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Solver;

namespace Clackbeat.VirtualRam.Tests;

/// <summary>Waste valves that float, several of them, and a snifter.</summary>
public class ValveKindTests
{
    [Theory]
    [InlineData(WasteValveKind.WeightedPlug, 1)]
    [InlineData(WasteValveKind.WeightedPlug, 3)]
    [InlineData(WasteValveKind.SpringPlug, 1)]
    [InlineData(WasteValveKind.Flap, 1)]
    [InlineData(WasteValveKind.Flap, 2)]
    public void A_ram_beats_and_lifts_with_any_kind_of_waste_valve(WasteValveKind kind, int count)
    {
        Run run = TestRams.RunFor(RamDesigner.Design(Site(kind, count)), 25);
        Assert.True(run.Totals.DurationS > 20, "It stopped.");
        // Home-made rams: 40 to 90 beats a minute and 30 to 75 % (bulletins and trade books).
        Assert.InRange(run.Totals.BeatsPerMin!.Value, 30, 110);
        Assert.InRange(run.Totals.DAubuisson!.Value, 0.3, 0.85);
    }

    // A plug on its stop obeys h = k Q²; one that floats narrows its gap as the flow grows, so h/Q² grows too. For a spring whose
    // force is k (x0 − x) and a gap as wide as its lift, Q ~ x √(1 − x/x0): it snaps at x = 2/3 x0; h/Q² ~ 1/x² has grown by 1.2 from half
    // the flow to eight tenths of it.
    [Theory]
    [InlineData(WasteValveKind.WeightedPlug, 0.98, 1.05)]
    [InlineData(WasteValveKind.SpringPlug, 1.1, 2)]
    [InlineData(WasteValveKind.Flap, 1.1, 2)]
    public void Only_a_plug_on_its_stop_keeps_the_square_law(WasteValveKind kind, double least, double most)
    {
        RamParameters ram = RamDesigner.Design(Site(kind, 1), RamCharacter.Smooth, PipeDetail.Elastic).Ram with { BeatScatter = 0 };
        var engine = new RamEngine(ram, Fault.None, seed: 1, startS: -10);
        double shuts = ShuttingFlow.Of(ram.WasteValve, ram.Water).FlowM3PerS;
        (List<double> early, List<double> late) = (new List<double>(), new List<double>());
        while (engine.TimeS < 10)
        {
            engine.Step();
            double share = engine.WasteFlowM3PerS / shuts;
            double law = engine.BodyHeadM / (engine.WasteFlowM3PerS * engine.WasteFlowM3PerS);
            if (engine.WasteOpening > 0.1 && engine.BodyHeadM > 0.01 && engine.BodyHeadM < ram.Supply.HeadM)
            {
                (share is > 0.45 and < 0.55 ? early : share is > 0.75 and < 0.85 ? late : []).Add(law);
            }
        }

        Assert.InRange(Median(late) / Median(early), least, most);
    }

    // Torricelli at the plateau, 0.6 · π/4 · (1.5 mm)² √(2 g h) = 1.06e-6 m² · √(2 · 9.80665 · 17) = 19.4 mL/s, and air comes in.
    [Fact]
    public void A_snifter_spits_on_the_plateau_and_lets_air_in_at_the_recoil()
    {
        RamSite site = TestRams.Steel with { AirVessel = new AirVessel { SnifterBoreM = 0.0015 } };
        var engine = new RamEngine(RamDesigner.Design(site).Ram, Fault.None, seed: 1, startS: -10);
        var spits = new List<double>();
        double lowest = 0.0;
        while (engine.TimeS < 10)
        {
            engine.Step();
            lowest = Math.Min(lowest, engine.BodyHeadM);
            if (engine.DeliveryOpening > 0.5 && Math.Abs(engine.BodyHeadM - 17) < 0.5)
            {
                spits.Add(engine.SpitM3PerS);
            }
        }

        Assert.Equal(19.4e-6, Median(spits), 0.6e-6);
        double dry = TestRams.RunFor(TestRams.Smooth(TestRams.Steel), 10).Beats.Min(b => b.SuctionPa) / (999.5 * Constants.GravityMPerS2);
        Assert.True(lowest > dry, $"air cushions the recoil: {lowest:0.0} m instead of {dry:0.0} m");
    }

    private static RamSite Site(WasteValveKind kind, int count) =>
        TestRams.Steel with { WasteValve = new WasteValve { Kind = kind, Count = count } };

    private static double Median(List<double> values)
    {
        values.Sort();
        return values[values.Count / 2];
    }
}
