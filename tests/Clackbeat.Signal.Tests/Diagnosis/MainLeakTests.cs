using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;

namespace Clackbeat.Signal.Tests.Diagnosis;

/// <summary>
/// A main that is full to its outlet stands on the air vessel with its whole height (Pascal's law): a plateau under that is a main that
/// leaks, and a valve that leaks never makes one. None of these rams is of the study's.
/// </summary>
public class MainLeakTests
{
    private static readonly Lazy<RamAnalysis> WellSteel = new(() => Clinic.Examine(Rams.Steel, Fault.None, seed: 2));
    private static readonly Lazy<RamAnalysis> WellPvc = new(() => Clinic.Examine(Rams.Pvc, Fault.None, character: RamCharacter.Lively, seed: 2));

    [Fact]
    public void A_main_that_leaks_much_is_not_called_a_valve_that_leaks()
    {
        foreach (RamAnalysis leaking in Both(Conditions.DeliveryMainLeaking, 0.8))
        {
            Assert.Equal(Conditions.DeliveryMainLeaking, leaking.Diagnosis[0].Condition);
            Assert.Contains(leaking.Diagnosis[0].Evidence, e => e.Code == "evidence-plateau-under-outlet");
            Assert.DoesNotContain(leaking.Diagnosis, f => f.Condition == Conditions.DeliveryValveLeaking && f.Probability > 0.3);
        }
    }

    [Fact]
    public void A_valve_that_leaks_is_not_called_a_main_and_the_small_leak_of_a_main_is_spoken_of()
    {
        foreach (RamAnalysis leaking in Both(Conditions.DeliveryValveLeaking, 1))
        {
            Assert.Equal(Conditions.DeliveryValveLeaking, leaking.Diagnosis[0].Condition);
            Assert.DoesNotContain(leaking.Diagnosis, f => f.Condition == Conditions.DeliveryMainLeaking && f.Probability > 0.3);
            Assert.Contains(leaking.Limits, l => l.Code == "diagnosis-valve-or-main");
        }
    }

    [Fact]
    public void With_a_height_that_is_too_large_in_the_site_file_a_baseline_keeps_the_main_out_of_it()
    {
        Site.Model.RamSite wrong = Rams.Steel with { Delivery = Rams.Steel.Delivery with { HeadM = 1.15 * Rams.Steel.Delivery.HeadM } };
        (double[] timesS, double[] pressuresPa, _) = Rams.Record(Rams.Steel, 40, seed: 2);
        RamAnalysis well = Rams.Analyse(wrong, timesS, pressuresPa);
        Assert.Contains(well.Diagnosis, f => f.Condition == Conditions.DeliveryMainLeaking);
        (timesS, pressuresPa, _) = Rams.Record(Rams.Steel, 40, seed: 3);
        var again = new RamAnalyser(wrong, well.Signature);
        again.Add(timesS, pressuresPa);
        Assert.DoesNotContain(again.Finish("again").Diagnosis, f => f.Condition == Conditions.DeliveryMainLeaking && f.Probability > 0.05);
    }

    private static RamAnalysis[] Both(string condition, double severity) =>
    [
        Clinic.Examine(Rams.Steel, Clinic.Ill(condition, severity), WellSteel.Value.Signature),
        Clinic.Examine(Rams.Pvc, Clinic.Ill(condition, severity), WellPvc.Value.Signature, RamCharacter.Lively),
    ];
}
