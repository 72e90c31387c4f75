using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.Signal.Tests.Diagnosis;

/// <summary>What is wrong is known, for the virtual ram was told to be so. These rams and seeds are none of the study's.</summary>
public class BeatingRamTests
{
    private static readonly Lazy<RamAnalysis> WellSteel = new(() => Clinic.Examine(Rams.Steel, Fault.None, seed: 2));
    private static readonly Lazy<RamAnalysis> WellPvc = new(() => Clinic.Examine(Rams.Pvc, Fault.None, character: RamCharacter.Lively, seed: 2));

    // What the project asks of itself with a baseline: so many named first, so many among the first two.
    private const double NamedFirst = 0.85;
    private const double AmongTwo = 0.95;

    // And without one.
    private const double NamedBySite = 0.65;
    private const double Strong = 0.8;
    private const double Small = 0.25;

    // The models were trained on rams whose air was one slow wave. As it is, slow while the valve is open and fast on the plateau, they
    // don't name it yet.
    private static readonly string[] Known = [.. ConditionModel.AgainstBaseline.Conditions.Where(c => c is not (Conditions.Healthy or Conditions.AirInDrivePipe))];

    [Fact]
    public void With_a_baseline_faults_of_middling_severity_are_named()
    {
        var judged = Known.SelectMany(c => new[]
        {
            (Truth: c, Analysis: Clinic.Examine(Rams.Steel, Clinic.Ill(c), WellSteel.Value.Signature)),
            (Truth: c, Analysis: Clinic.Examine(Rams.Pvc, Clinic.Ill(c), WellPvc.Value.Signature, RamCharacter.Lively)),
        }).ToList();
        Assert.All(judged, j => AssertSound(j.Analysis));
        string all = string.Join("; ", judged.Select(j => $"{j.Truth}: {string.Join(", ", j.Analysis.Diagnosis.Select(f => f.Condition))}"));
        Assert.True(judged.Count(j => j.Analysis.Diagnosis[0].Condition == j.Truth) >= NamedFirst * judged.Count, all);
        Assert.True(judged.Count(j => j.Analysis.Diagnosis.Take(2).Any(f => f.Condition == j.Truth)) >= AmongTwo * judged.Count, all);
    }

    [Fact]
    public void Without_a_baseline_strong_faults_are_mostly_named_and_what_is_unsure_is_said_to_be()
    {
        var judged = Known.SelectMany(c => new[]
        {
            (Truth: c, Analysis: Clinic.Examine(Rams.Steel, Clinic.Ill(c, Strong))),
            (Truth: c, Analysis: Clinic.Examine(Rams.Pvc, Clinic.Ill(c, Strong), character: RamCharacter.Lively)),
        }).ToList();
        string all = string.Join("; ", judged.Select(j => $"{j.Truth}: {string.Join(", ", j.Analysis.Diagnosis.Select(f => f.Condition))}"));
        Assert.True(judged.Count(j => j.Analysis.Diagnosis[0].Condition == j.Truth) >= NamedBySite * judged.Count, all);
        Assert.All(judged, j => AssertSound(j.Analysis));
        Assert.All(judged, j => Assert.Equal(
            Diagnoser.IsUnsure(j.Analysis.Diagnosis),
            j.Analysis.Limits.Any(l => l.Code == "diagnosis-undecided")));
    }

    [Fact]
    public void Without_a_baseline_a_well_ram_is_called_well() =>
        Assert.All(new[] { WellSteel.Value, WellPvc.Value }, a => Assert.Equal(Conditions.Healthy, a.Diagnosis[0].Condition));

    [Fact]
    public void A_small_fault_is_called_beginning_and_a_strong_one_is_not()
    {
        string[] conditions = [Conditions.WasteValveSticking, Conditions.AirVesselWaterlogged, Conditions.DeliveryRestricted];
        Assert.All(conditions, c => Assert.StartsWith("evidence-beginning", Clinic.Examine(Rams.Steel, Clinic.Ill(c, Small), WellSteel.Value.Signature).Diagnosis[0].Evidence[0].Code, StringComparison.Ordinal));
        Assert.All(conditions, c => Assert.DoesNotContain("beginning", Clinic.Examine(Rams.Steel, Clinic.Ill(c, Strong), WellSteel.Value.Signature).Diagnosis[0].Evidence[0].Code, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(6000, 1, 1, 1000)]
    [InlineData(-6000, 1, 1, 1000)]
    [InlineData(0, 1.01, 1, 1000)]
    [InlineData(0, 1, 5, 1000)]
    [InlineData(0, 1, 1, 500)]
    [InlineData(0, 1, 1, 2000)]
    public void A_sensor_that_is_a_little_off_makes_no_ram_ill(double offsetPa, double gain, double noise, double rateHz)
    {
        RamAnalysis analysis = Clinic.Examine(Rams.Steel, Fault.None, WellSteel.Value.Signature, sensor: s => s with
        {
            OffsetPa = offsetPa,
            Gain = gain,
            NoisePa = s.NoisePa * noise,
            RateHz = rateHz,
        });
        Assert.Equal(Conditions.Healthy, analysis.Diagnosis[0].Condition);
    }

    [Fact]
    public void Two_faults_at_once_are_both_among_the_first_three()
    {
        Fault leak = Clinic.Ill(Conditions.DeliveryValveLeaking);
        RamDesign design = RamDesigner.Design(Rams.Steel);
        RamParameters airy = FaultEffects.Apply(design.Ram, Clinic.Ill(Conditions.AirInDrivePipe));
        var ram = new VirtualRam.RamSimulation(airy, design.Sensor, new VirtualRam.SimulationOptions { Fault = leak, Seed = 5 });
        var samples = ram.Samples(40).ToList();
        var analyser = new RamAnalyser(Rams.Steel, WellSteel.Value.Signature);
        analyser.Add([.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);
        IEnumerable<string> first = analyser.Finish("two faults").Diagnosis.Take(3).Select(f => f.Condition);
        Assert.Contains(Conditions.AirInDrivePipe, first);
        Assert.Contains(Conditions.DeliveryValveLeaking, first);
    }

    [Fact]
    public void Without_a_baseline_the_record_says_what_that_costs() =>
        Assert.Contains(WellSteel.Value.Limits, l => l.Code is "diagnosis-no-baseline" or "diagnosis-undecided");

    [Fact]
    public void Five_beats_are_needed_and_less_is_said_to_be_too_little()
    {
        RamAnalysis analysis = Clinic.Examine(Rams.Steel, Fault.None, lengthS: 5);
        Assert.Empty(analysis.Diagnosis);
        Assert.Contains(analysis.Limits, l => l.Code is "diagnosis-few-beats" or "diagnosis-sampled-too-slowly" or "diagnosis-strange");
    }

    private static void AssertSound(RamAnalysis analysis)
    {
        Assert.All(analysis.Diagnosis, f => Assert.NotEmpty(f.Evidence));
        Assert.All(analysis.Diagnosis, f => Assert.NotEmpty(f.Parts));
        Assert.Equal(analysis.Diagnosis.OrderByDescending(f => f.Probability).Select(f => f.Condition), analysis.Diagnosis.Select(f => f.Condition));
    }
}
