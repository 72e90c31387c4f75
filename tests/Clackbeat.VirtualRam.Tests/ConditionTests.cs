using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Sensing;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.VirtualRam.Tests;

/// <summary>
/// Each condition must show the signs that the field knows for it (docs/virtual-ram.md lists them; common practice, from
/// memory, where no paper is named there).
/// </summary>
public class ConditionTests
{
    private static readonly RamDesign Design = TestRams.Smooth(TestRams.Steel);

    private static readonly Lazy<Run> Well = new(() => TestRams.RunFor(Design, 30));

    [Fact]
    public void Severity_nought_is_a_well_ram()
    {
        foreach (RamCondition condition in Enum.GetValues<RamCondition>())
        {
            Assert.Equal(Design.Ram, FaultEffects.Apply(Design.Ram, new Fault { Condition = condition, Severity = 0 }));
        }
    }

    [Fact]
    public void A_sticking_waste_valve_makes_beats_uneven_and_wastes_more()
    {
        Run run = Ill(RamCondition.WasteValveSticking);
        Assert.True(run.Irregularity > 5 * Well.Value.Irregularity);
        Assert.True(WastePerBeat(run) > 1.02 * WastePerBeat(Well.Value));
    }

    [Fact]
    public void A_leaking_waste_valve_delivers_less_at_the_same_closing_velocity()
    {
        Run run = Ill(RamCondition.WasteValveLeaking);
        Assert.True(run.Totals.DAubuisson < 0.9 * Well.Value.Totals.DAubuisson);
        Assert.Equal(ClosingVelocity(Well.Value), ClosingVelocity(run), 0.1 * ClosingVelocity(Well.Value));
    }

    [Fact]
    public void A_leaking_delivery_valve_delivers_less_at_nearly_the_same_rate()
    {
        Run run = Ill(RamCondition.DeliveryValveLeaking);
        Assert.True(run.Totals.DAubuisson < 0.8 * Well.Value.Totals.DAubuisson);
        Assert.Equal(Well.Value.Totals.BeatsPerMin!.Value, run.Totals.BeatsPerMin!.Value, 0.1 * Well.Value.Totals.BeatsPerMin!.Value);
    }

    [Fact]
    public void A_late_delivery_valve_lets_water_run_back()
    {
        Assert.True(RunBack(RamCondition.DeliveryValveLate) > 3 * RunBack(RamCondition.Healthy));
        Assert.True(Ill(RamCondition.DeliveryValveLate, 1).Totals.DAubuisson < 0.97 * Well.Value.Totals.DAubuisson);
    }

    [Fact]
    public void A_vessel_without_air_lets_the_plateau_rise()
    {
        Run run = Ill(RamCondition.AirVesselWaterlogged);
        Assert.True(run.Beats.Average(b => b.PlateauPa) > 1.03 * Well.Value.Beats.Average(b => b.PlateauPa));
    }

    [Fact]
    public void Bubbles_slow_the_waves_as_Woods_rule_says_and_soften_the_peak()
    {
        Run run = Ill(RamCondition.AirInDrivePipe, 1);
        // A. B. Wood's mixture rule, 0.12 % of air by volume: 1/(ρ a²) = 1/(ρ a0²) + φ/p, at half the supply head; 293 to 301 m/s,
        // for vapour bears 1.4 kPa of the pressure.
        double pressure = Constants.StandardAtmospherePa + 0.5 * 2.2 * 999.5 * Constants.GravityMPerS2;
        double compliance = 1 / (999.5 * 1270.0 * 1270.0) + 1.2e-3 / pressure;
        Assert.Equal(1 / Math.Sqrt(999.5 * compliance), run.Simulation.Engine.Parameters.WaveSpeedAt(1.1), 4.0);
        Assert.True(run.Beats.Average(b => b.PeakPa) < 0.95 * Well.Value.Beats.Average(b => b.PeakPa));
    }

    [Theory]
    [InlineData(StarvedBy.LowLevel)]
    [InlineData(StarvedBy.BlockedStrainer)]
    [InlineData(StarvedBy.HalfShutGate)]
    public void A_starved_supply_slows_the_beat_and_lifts_less(StarvedBy way)
    {
        var simulation = new RamSimulation(Design.Ram, Design.Sensor, new SimulationOptions
        {
            Fault = new Fault { Condition = RamCondition.SupplyStarved, StarvedBy = way },
        });
        Drain(simulation, 30);
        Assert.True(simulation.Totals.BeatsPerMin < 0.97 * Well.Value.Totals.BeatsPerMin);
        Assert.True(simulation.Totals.DeliveredM3 < 0.97 * Well.Value.Totals.DeliveredM3);
    }

    [Fact]
    public void A_throttled_main_raises_the_plateau_and_lifts_less()
    {
        Run run = Ill(RamCondition.DeliveryRestricted);
        Assert.True(run.Beats.Average(b => b.PlateauPa) > 1.1 * Well.Value.Beats.Average(b => b.PlateauPa));
        Assert.True(run.Totals.DeliveredM3 / run.Totals.DurationS < 0.95 * Well.Value.Totals.DeliveredM3 / Well.Value.Totals.DurationS);
    }

    /// <summary>By hand: what leaves the vessel goes to the outlet or through the hole, and the hole follows Torricelli under the head there.</summary>
    [Fact]
    public void A_leaking_main_delivers_as_much_and_less_arrives_by_Torricelli()
    {
        var leak = new Fault { Condition = RamCondition.DeliveryMainLeaking, Severity = 0.4, LeakAt = 0.3 };
        var simulation = new RamSimulation(Design.Ram, Design.Sensor, new SimulationOptions { Fault = leak });
        Drain(simulation, 30);
        RamTotals ill = simulation.Totals;
        Assert.InRange(ill.DeliveredM3 / ill.DurationS, 0.98 * Well.Value.Totals.DeliveredM3 / Well.Value.Totals.DurationS, 1.1 * Well.Value.Totals.DeliveredM3 / Well.Value.Totals.DurationS);
        MainParameters main = simulation.Engine.Parameters.DeliveryMain;

        // The hole is at three tenths of the rise; friction to it is small beside the seven tenths above it.
        double jet = main.LeakAreaM2 * Math.Sqrt(2 * Constants.GravityMPerS2 * 0.7 * main.OutletHeadM);
        Assert.Equal(jet, (ill.DeliveredM3 - ill.ArrivedM3) / ill.DurationS, 0.06 * jet);
    }

    [Fact]
    public void A_burst_main_lets_the_plateau_fall_and_nothing_arrives()
    {
        var burst = new Fault { Condition = RamCondition.DeliveryMainLeaking, Severity = 1, LeakAt = 0.3 };
        var simulation = new RamSimulation(Design.Ram, Design.Sensor, new SimulationOptions { Fault = burst });
        Drain(simulation, 30);
        Assert.True(simulation.Engine.VesselHeadM < 0.95 * 17);
        Assert.True(simulation.Totals.ArrivedM3 < 0.02 * simulation.Totals.DeliveredM3);
        Assert.True(simulation.Engine.OutletFlowM3PerS >= 0);
    }

    [Fact]
    public void A_tight_main_brings_all_that_is_delivered() =>
        Assert.Equal(Well.Value.Totals.DeliveredM3, Well.Value.Totals.ArrivedM3, 0.02 * Well.Value.Totals.DeliveredM3);

    [Fact]
    public void Worn_rubber_slows_the_beat_and_wastes_more_a_beat()
    {
        Run run = Ill(RamCondition.WasteValveWorn);
        Assert.True(run.Totals.BeatsPerMin < 0.98 * Well.Value.Totals.BeatsPerMin);
        Assert.True(WastePerBeat(run) > 1.02 * WastePerBeat(Well.Value));
        ValveParameters worn = run.Simulation.Engine.Parameters.WasteValve, built = Design.Ram.WasteValve;
        Assert.Equal(built.OpeningForceN(built.TravelM), worn.OpeningForceN(worn.TravelM), 1e-9);
    }

    [Fact]
    public void Held_shut_the_body_comes_to_stand_at_the_supply_head()
    {
        Run run = Ill(RamCondition.StoppedShut);
        Assert.All(run.Beats, b => Assert.True(b.ClosureS < 8.5));
        Assert.Equal(2.2, run.Simulation.Engine.BodyHeadM, 0.05);
    }

    [Fact]
    public void Held_open_water_runs_to_waste_and_nothing_beats()
    {
        Run run = Ill(RamCondition.StoppedOpen);
        Assert.All(run.Beats, b => Assert.True(b.ClosureS + b.IntervalS < 10));
        Assert.InRange(run.Simulation.Engine.BodyHeadM, 0.05, 2);
        Assert.True(run.Simulation.Engine.WasteFlowM3PerS > 0.5e-3);
    }

    [Theory]
    [InlineData(SensorFaultKind.FlatLine, 1)]
    [InlineData(SensorFaultKind.OpenLoop, 1)]
    public void A_dead_sensor_reads_one_value(SensorFaultKind kind, int values) =>
        Assert.Equal(values, Faulty(kind).Select(s => s.Counts).Distinct().Count());

    [Fact]
    public void A_sensor_of_swapped_polarity_falls_where_the_pressure_rises() =>
        Assert.True(Faulty(SensorFaultKind.Inverted).Max(s => s.PressurePa) < 1.5e5);

    [Fact]
    public void A_sensor_of_too_small_a_range_cuts_the_peaks_off() =>
        Assert.True(Faulty(SensorFaultKind.Clipping).Max(s => s.PressurePa) < 2e5);

    [Fact]
    public void Air_in_the_tap_line_hides_the_peak()
    {
        double well = Samples(Fault.None).Max(s => s.PressurePa);
        Assert.True(Faulty(SensorFaultKind.AirInTap).Max(s => s.PressurePa) < 0.95 * well);
    }

    private static List<VirtualSample> Faulty(SensorFaultKind kind) =>
        Samples(new Fault { Condition = RamCondition.SensorFault, SensorFault = kind, Severity = 0.8 });

    private static List<VirtualSample> Samples(Fault fault) =>
        [.. new RamSimulation(Design.Ram, Design.Sensor, new SimulationOptions { Fault = fault }).Samples(6)];

    private static Run Ill(RamCondition condition, double severity = 0.6) => TestRams.RunFor(Design, 30, condition, severity);

    private static double WastePerBeat(Run run) => run.Beats.Average(b => b.WasteM3);

    private static double ClosingVelocity(Run run) => run.Beats.Average(b => b.ClosingVelocityMPerS);

    private static double RunBack(RamCondition condition)
    {
        double back = 0.0;
        var simulation = new RamSimulation(Design.Ram, Design.Sensor, new SimulationOptions
        {
            Fault = new Fault { Condition = condition, Severity = 1 },
        });
        simulation.Stepped += e => back += e.StepS * Math.Max(0, -e.DeliveryFlowM3PerS);
        Drain(simulation, 20);
        return back;
    }

    private static void Drain(RamSimulation simulation, double seconds)
    {
        foreach (VirtualSample sample in simulation.Samples(seconds))
        {
            Assert.True(sample.TimeS <= seconds);
        }
    }
}
