using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.States;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Report.Tests;

/// <summary>What a keeper reads of the pipe.</summary>
public sealed class PipeWordsSpecs
{
    private static readonly PipeLoad Steel = new()
    {
        Material = PipeMaterial.GalvanisedSteel,
        BoreM = 0.0525,
        WallM = 0.0039,
        Joint = PipeJoint.Threaded,
        PrintedRatingPa = 40e5,
        PeakPa = 9e5,
        PeakUncertaintyPa = 0.3e5,
        TroughPa = -0.3e5,
        BeatsPerMin = 60,
        SampleRateHz = 1000,
        PipePeriodS = 0.05,
    };

    private static readonly PipeLoad Pvc = Steel with { Material = PipeMaterial.PvcU, Joint = PipeJoint.Plain, PrintedRatingPa = null, PeakPa = 5e5 };

    [Fact]
    public void Every_code_has_its_sentence() => Assert.All(Enum.GetValues<RatingRemarkCode>(), code => Assert.Matches(
        @"^[A-Z].{20,}\.$", PipeWords.Of(new RatingRemark(code) { PressurePa = 1e5, LimitPa = 2e5, Part = "hose", TemperatureC = 60 }).ToString()));

    // 9 bar against 40: the low end of the fatigue range must not make it "close to the 40 bar the pipe may bear".
    [Fact]
    public void A_steel_pipe_at_a_quarter_of_its_rating_isn_t_called_close_to_it()
    {
        PipeCheck check = PipeRating.Check(Steel with { PeakPa = 15e5 });
        Assert.Equal(PipeVerdict.Near, check.FatigueVerdict);
        string said = Said(check);
        Assert.DoesNotContain("close to", said, StringComparison.Ordinal);
        Assert.DoesNotContain("Stop", said, StringComparison.Ordinal);
        Assert.Contains("nobody inspected", string.Join(" ", PipeWords.Explanation(check)), StringComparison.Ordinal);
    }

    [Fact]
    public void A_plastic_pipe_on_which_the_curves_disagree_isn_t_told_to_stop_and_says_why_the_range_is_wide()
    {
        PipeCheck check = PipeRating.Check(Pvc);
        Assert.Equal(PipeVerdict.Near, check.FatigueVerdict);
        Assert.DoesNotContain("Stop", Said(check), StringComparison.Ordinal);
        string fatigue = string.Join(" ", PipeWords.Fatigue(check));
        Assert.Contains("published curves for PVC-U differ", fatigue, StringComparison.Ordinal);
        Assert.Contains("extrapolations", fatigue, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_even_the_gentlest_curve_is_short_it_says_stop()
    {
        PipeCheck check = PipeRating.Check(Pvc with { PeakPa = 12e5 });
        Assert.Equal(PipeVerdict.Over, check.FatigueVerdict);
        Assert.Contains("the longest life by the published curves is", Said(check), StringComparison.Ordinal);
        Assert.StartsWith("Stop and replace the pipe", Summary.Label(With(check)), StringComparison.Ordinal);
    }

    // 4.45 bar on a pipe of 3 bar.
    [Fact]
    public void The_worst_news_leads_and_a_ram_that_stands_still_comes_before_its_pipe()
    {
        PipeCheck over = PipeRating.Check(Steel with { PrintedRatingPa = 3e5, PeakPa = 4.45e5, PeakUncertaintyPa = 0.05e5 });
        IReadOnlyList<string> beating = Summary.Sentences(With(over), Units.Metric);
        Assert.Contains("4.45 bar, more than the drive pipe's limit of 3.00 bar", beating[0], StringComparison.Ordinal);
        Assert.Contains("Stop the ram", beating[0], StringComparison.Ordinal);
        Assert.Equal("Stop and check the pipe", Summary.Label(With(over)));
        RamAnalysis still = With(over) with { State = RamState.StoppedShut };
        Assert.Contains("stands still", Summary.Sentences(still, Units.Metric)[0], StringComparison.Ordinal);
        Assert.Contains("leapt", Summary.Sentences(still, Units.Metric)[1], StringComparison.Ordinal);
        Assert.StartsWith("Stopped", Summary.Label(still), StringComparison.Ordinal);
    }

    [Fact]
    public void A_fault_leads_before_the_beat()
    {
        RamAnalysis ill = MadeUpRam.Analysis() with { Diagnosis = [new Finding("waste-valve-leaking", 0.9, [MadeUpRam.Told("It leaks.")], MadeUpRam.Told("Look."))] };
        Assert.StartsWith("Almost certainly: the waste valve leaks", Summary.Sentences(ill, Units.Metric)[0], StringComparison.Ordinal);
    }

    [Fact]
    public void A_sentence_keeps_its_pressures_for_the_reader_s_own_unit()
    {
        Sentence peak = PipeWords.Explanation(PipeRating.Check(Steel))[0];
        Assert.Contains("9.0 ± 0.3 bar (131 ± 4 psi)", peak.ToString(), StringComparison.Ordinal);
        // 1 mH2O is 9806.65 Pa (NIST SP 811): 9 bar are 91.8 m of water.
        Assert.Contains("91.8 m", peak.Write(p => FormattableString.Invariant($"{p.Pa / 9806.65:0.0} m")), StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_a_keeper_reads_is_from_memory()
    {
        foreach (PipeMaterial material in Enum.GetValues<PipeMaterial>())
        {
            PipeCheck check = PipeRating.Check(Pvc with { Material = material });
            string said = PipeWords.Source(check.Source) + string.Join(" ", PipeWords.Notes(check)) + PipeWords.Rule(check)
                + string.Join(" ", check.Alternatives.Select(PipeWords.Basis));
            Assert.DoesNotContain("memory", said, StringComparison.Ordinal);
        }
    }

    private static RamAnalysis With(PipeCheck check) => MadeUpRam.Analysis() with { Pipe = check };

    private static string Said(PipeCheck check) => string.Join(" ", Summary.Sentences(With(check), Units.Metric));
}
