using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Signal.Analysis;
using Clackbeat.Twin.Air;
using Clackbeat.Twin.Changes;
using Clackbeat.Twin.Fitting;
using Clackbeat.Twin.Model;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Solver;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.Twin.Tests;

/// <summary>The vessel's air: what the record shows of it, and what another amount would do.</summary>
public class AirTests
{
    private static readonly DrawnRam Drawn = DrawnRam.Of(8011, PipeMaterial.GalvanisedSteel, RamCharacter.Smooth, PipeDetail.Real);
    private static readonly Lazy<(RamAnalysis Analysis, FittedTwin Twin)> Well = new(() => Fitted(Drawn));

    // Gas of p Vⁿ = const (E. B. Wylie and V. L. Streeter, Fluid Transients in Systems, 1993, on air chambers) holds what enters while the
    // delivery valve is open, less what the main takes meanwhile: between half and all of a delivery, since a plateau takes less than half a beat.
    [Fact]
    public void The_vessel_swings_as_polytropic_gas_does()
    {
        (_, FittedTwin twin) = Well.Value;
        double Swing(double m3, out double least, out double most)
        {
            Cycle cycle = CycleRun.Of(WorkingVessel.Of(twin.Frame.Ram(twin.Values), twin, m3), twin.Measured.IntervalS)!;
            RamParameters ram = twin.Frame.Designed;
            double absoluteM = twin.Measured.PlateauM + (ram.Water.AtmospherePa / (ram.Water.DensityKgPerM3 * Constants.GravityMPerS2));
            double Textbook(double entersM3) => absoluteM * (Math.Pow(m3 / (m3 - entersM3), ram.AirVessel.PolytropicExponent) - 1);
            (least, most) = (Textbook(0.5 * cycle.DeliveredM3), 1.1 * Textbook(cycle.DeliveredM3));
            return cycle.VesselSwingM;
        }

        double full = twin.Frame.Designed.AirVessel.GasM3;
        double ofFull = Swing(full, out double leastOfFull, out double mostOfFull);
        Assert.InRange(ofFull, leastOfFull, mostOfFull);
        double ofFifth = Swing(0.2 * full, out double leastOfFifth, out double mostOfFifth);
        Assert.InRange(ofFifth, leastOfFifth, mostOfFifth);
        // Small swings go as 1/V.
        Assert.InRange(ofFull / Swing(2 * full, out _, out _), 1.8, 2.2);
    }

    [Theory]
    [InlineData(8011, PipeMaterial.GalvanisedSteel, 0.06)]
    [InlineData(8012, PipeMaterial.PvcU, 0.15)]
    public void Another_amount_of_air_does_what_was_foretold(int number, PipeMaterial material, double share)
    {
        var drawn = DrawnRam.Of(number, material, RamCharacter.Smooth, PipeDetail.Real);
        (RamAnalysis analysis, FittedTwin twin) = Fitted(drawn);
        double m3 = share * twin.Frame.Designed.AirVessel.GasM3;
        Prediction told = new WhatIf(drawn.Site, analysis, twin).Of(new RamChange { AirM3 = m3 });
        RamParameters changed = drawn.Ram with { AirVessel = drawn.Ram.AirVessel with { GasM3 = m3 } };
        RamTotals truth = drawn.Truth(changed, 20);
        Near(truth.BeatsPerMin!.Value, told.RatePerMin!.Value.Value, 0.08);
        Near(truth.DeliveredM3 / truth.DurationS, told.DeliveredM3PerS!.Value.Value, 0.15);
        Near(truth.WasteM3 / truth.DurationS, told.WasteM3PerS!.Value.Value, 0.15);
        double metre = drawn.Ram.Water.DensityKgPerM3 * Constants.GravityMPerS2;
        Assert.InRange(Math.Abs(told.VesselSwingPa!.Value.Value - (metre * SwingM(changed, drawn.Number))), 0, told.VesselSwingPa.Value.U);
    }

    // The virtual ram's own air is the truth: little of it shows, and of much only that it isn't little.
    [Fact]
    public void Little_air_is_seen_and_of_much_only_the_least()
    {
        var much = VesselAir.Of(Well.Value.Twin);
        Assert.True(much.LowM3 < Drawn.Ram.AirVessel.GasM3, $"{much} for {Drawn.Ram.AirVessel.GasM3}");
        Assert.True(much.IsOpen || much.HighM3 > Drawn.Ram.AirVessel.GasM3, $"{much} for {Drawn.Ram.AirVessel.GasM3}");

        double left = 0.1 * Drawn.Ram.AirVessel.GasM3;
        (RamAnalysis analysis, FittedTwin twin) = Fitted(Drawn with { Ram = Drawn.Ram with { AirVessel = Drawn.Ram.AirVessel with { GasM3 = left } }, Number = 8111 });
        var little = VesselAir.Of(twin);
        Assert.InRange(left, little.LowM3, little.HighM3);
        Assert.False(little.IsOpen);
        Assert.True(little.Seen > much.Seen + 0.1, $"{little} {much}");

        // What half the air would do is less sure where nobody knows how much half is.
        double Wide(RamAnalysis record, FittedTwin of) =>
            new WhatIf(Drawn.Site, record, of).Of(new RamChange { Air = 0.5 }).VesselSwingPa is { } swing ? swing.U / swing.Value : 0;
        Assert.True(Wide(Well.Value.Analysis, Well.Value.Twin) > 1.5 * Wide(analysis, twin));
    }

    private static double SwingM(RamParameters ram, int seed)
    {
        var engine = new RamEngine(ram with { BeatScatter = 0, LongestStepS = 4e-4, MostReaches = 100 }, Fault.None, seed);
        engine.StartOpen();
        (double low, double high) = (double.MaxValue, double.MinValue);
        while (engine.TimeS < 40)
        {
            engine.Step();
            if (engine.TimeS > 30)
            {
                (low, high) = (Math.Min(low, engine.VesselHeadM), Math.Max(high, engine.VesselHeadM));
            }
        }

        return high - low;
    }

    private static void Near(double truth, double told, double share) => Assert.InRange(told / truth, 1 - share, 1 + share);

    private static (RamAnalysis Analysis, FittedTwin Twin) Fitted(DrawnRam drawn)
    {
        RamAnalysis analysis = drawn.Analysed(20);
        return (analysis, FittedTwin.Of(drawn.Site, analysis)!);
    }
}
