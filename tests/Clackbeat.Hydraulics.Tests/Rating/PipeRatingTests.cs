using Clackbeat.Hydraulics.Fatigue;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Rating;
using CsCheck;

namespace Clackbeat.Hydraulics.Tests.Rating;

public class PipeRatingTests
{
    /// <summary>2 in Schedule 40 PVC: 280 psi, 19.3 bar.</summary>
    private static readonly PipeLoad Pvc = new()
    {
        Material = PipeMaterial.PvcU,
        BoreM = 0.0525,
        WallM = 0.0039,
        Joint = PipeJoint.Plain,
        PeakPa = 9e5,
        PeakUncertaintyPa = 0.3e5,
        TroughPa = -0.3e5,
        BeatsPerMin = 60,
        SampleRateHz = 1000,
        PipePeriodS = 0.05,
    };

    private static readonly PipeLoad Steel = Pvc with
    {
        Material = PipeMaterial.GalvanisedSteel,
        Joint = PipeJoint.Threaded,
        PrintedRatingPa = 25e5,
    };

    [Fact]
    public void Pvc_inside_its_static_rating_but_worn_out_by_sixty_beats_a_minute_is_called_so()
    {
        var check = PipeRating.Check(Pvc);
        Assert.Equal(PipeVerdict.Within, check.PressureVerdict);
        Assert.Equal(PipeVerdict.Over, check.Verdict);
        Assert.Equal(FatigueCoverage.Life, check.Fatigue!.Coverage);
        Assert.True(check.FatigueLifeYears!.High < 20, check.ToString());
        Assert.True(check.FatigueLifeYears.Low < check.FatigueLifeYears.Value && check.FatigueLifeYears.Value < check.FatigueLifeYears.High);
        Assert.Contains("repetition", Said(check), StringComparison.Ordinal);
        Assert.Equal(4, check.Fatigue.Curves.Count);
    }

    [Fact]
    public void A_steel_pipe_at_a_tenth_of_its_rating_isn_t_alarmed_about()
    {
        var check = PipeRating.Check(Steel with { PeakPa = 2.5e5 });
        Assert.Equal(PipeVerdict.Within, check.Verdict);
        Assert.Equal(FatigueCheck.LongestLifeYears, check.FatigueLifeYears!.Low);
        Assert.Contains("no fatigue is expected", Said(check), StringComparison.Ordinal);
        Assert.DoesNotContain("exceed", Said(check), StringComparison.Ordinal);
    }

    [Fact]
    public void An_ordinary_galvanised_ram_pipe_passes() =>
        Assert.Equal(PipeVerdict.Within, PipeRating.Check(Steel).Verdict);

    [Fact]
    public void A_clipped_or_slow_or_doubtful_sensor_never_says_within() =>
        Gen.Select(Gen.Double[0.1e5, 40e5], Gen.Int[0, 2]).Sample((peak, fault) =>
        {
            foreach (var load in new[] { Pvc, Steel })
            {
                var faulty = (load with { PeakPa = peak, PeakUncertaintyPa = 0 }) switch
                {
                    var l when fault == 0 => l with { Clipped = true },
                    var l when fault == 1 => l with { SampleRateHz = 100 },
                    var l => l with { PeakIsLowerBound = true },
                };
                var check = PipeRating.Check(faulty);
                Assert.NotEqual(PipeVerdict.Within, check.Verdict);
                Assert.NotEqual(PipeVerdict.Within, check.PressureVerdict);
                Assert.NotEqual(PipeVerdict.Within, check.Fatigue!.Verdict);
            }
        });

    [Fact]
    public void A_peak_without_uncertainty_is_never_within() =>
        Assert.Equal(PipeVerdict.Unknown, PipeRating.Check(Steel with { PeakUncertaintyPa = null }).Verdict);

    [Fact]
    public void Within_near_and_over_follow_the_uncertainty()
    {
        PipeVerdict At(double peak, double u) => PipeRating.Check(Steel with { PeakPa = peak, PeakUncertaintyPa = u }).PressureVerdict;
        Assert.Equal(PipeVerdict.Within, At(24e5, 1e5));
        Assert.Equal(PipeVerdict.Near, At(24e5, 1.01e5));
        Assert.Equal(PipeVerdict.Over, At(25.01e5, 5e5));
    }

    [Fact]
    public void A_higher_peak_never_earns_a_better_verdict()
    {
        static int Rank(PipeVerdict v) => v switch { PipeVerdict.Within => 0, PipeVerdict.Near => 1, PipeVerdict.Unknown => 1, _ => 2 };
        Gen.Select(Gen.OneOf(Pvc, Steel, Pvc with { Material = PipeMaterial.Pe100 }), Gen.Double[0, 40e5], Gen.Double[0, 40e5])
            .Sample((load, a, b) =>
            {
                var (low, high) = (PipeRating.Check(load with { PeakPa = Math.Min(a, b) }), PipeRating.Check(load with { PeakPa = Math.Max(a, b) }));
                Assert.True(Rank(low.PressureVerdict) <= Rank(high.PressureVerdict));
                Assert.True((low.FatigueLifeYears?.Value ?? 0) >= (high.FatigueLifeYears?.Value ?? 0));
            });
    }

    [Fact]
    public void What_is_printed_on_the_pipe_wins_over_the_tables()
    {
        var check = PipeRating.Check(Pvc with { PrintedRatingPa = 12e5 });
        Assert.Equal(12e5, check.RatedPa);
        Assert.Contains("printed", check.RatingSource, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_series_conflict_the_lowest_is_taken_and_the_others_are_offered()
    {
        // 63 mm × 4.7 mm is PN 16 by ISO 1452 (SDR 13.6) and SDR 13.5 by ASTM D2241, 315 psi or 21.7 bar.
        var check = PipeRating.Check(Pvc with { BoreM = 0.0536, WallM = 0.0047 });
        Assert.Equal(16e5, check.AllowablePa!.Value, 1);
        var other = Assert.Single(check.Alternatives, a => a.Basis.Contains("lowest that fits", StringComparison.Ordinal));
        Assert.Equal(21.7e5, other.AllowablePa, 0.1e5);
    }

    [Fact]
    public void A_tabled_size_with_the_pipe_s_diameter_and_wall_is_that_pipe()
    {
        // 2 in Schedule 40: 280 psi (ASTM D1785).
        var check = PipeRating.Check(Pvc);
        Assert.Equal(280 * 6894.757, check.AllowablePa!.Value, 1);
        Assert.StartsWith("Schedule 40, 2 in", check.RatingSource, StringComparison.Ordinal);
    }

    [Fact]
    public void Steel_that_only_an_uninspected_weld_could_fail_is_near_and_says_why()
    {
        var check = PipeRating.Check(Steel with { PeakPa = 15e5 });
        Assert.Equal(PipeVerdict.Near, check.Verdict);
        Assert.Contains("nobody inspected", Said(check), StringComparison.Ordinal);
    }

    [Fact]
    public void An_unknown_rating_is_never_called_allowed_by_its_pressure()
    {
        var check = PipeRating.Check(Pvc with { TemperatureC = 70 });
        Assert.Equal(PipeVerdict.Over, check.Verdict);
        Assert.DoesNotContain("would be allowed", Said(check), StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_known_is_said_to_be_unknown_and_why()
    {
        var check = PipeRating.Check(new PipeLoad { Material = PipeMaterial.Other, BoreM = 0.05 });
        Assert.Equal(PipeVerdict.Unknown, check.Verdict);
        Assert.Null(check.AllowablePa);
        Assert.Null(check.FatigueLifeYears);
        Assert.Contains(check.Notes, n => n.ToString().Contains("printed on the pipe", StringComparison.Ordinal));
    }

    [Fact]
    public void Every_material_is_judged_without_an_accident() =>
        Gen.Select(Gen.Enum<PipeMaterial>(), Gen.Enum<PipeJoint>(), Gen.Double[0.008, 0.3], Gen.Double[0.02, 0.3], Gen.Double[-5, 70], Gen.Double[-1e5, 50e5])
            .Sample((material, joint, bore, share, temperature, peak) =>
            {
                var check = PipeRating.Check(Pvc with
                {
                    Material = material,
                    Joint = joint,
                    BoreM = bore,
                    WallM = bore * share,
                    TemperatureC = temperature,
                    PeakPa = peak,
                });
                Assert.NotEmpty(check.Explanation);
                Assert.True(check.AllowablePa is null or >= 0);
            });

    [Fact]
    public void Materials_without_a_curve_are_said_not_to_be_covered()
    {
        foreach (var material in new[] { PipeMaterial.Copper, PipeMaterial.DuctileIron, PipeMaterial.PvcO, PipeMaterial.Abs })
        {
            var check = PipeRating.Check(Pvc with { Material = material, PrintedRatingPa = 25e5 });
            Assert.Equal(FatigueCoverage.NotCovered, check.Fatigue!.Coverage);
            Assert.Null(check.FatigueLifeYears);
            Assert.Contains("not covered", Said(check), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_life_beyond_any_test_says_so_and_is_at_best_near()
    {
        var check = PipeRating.Check(Pvc with { PeakPa = 0.4e5, PeakUncertaintyPa = 0.01e5, TroughPa = 0 });
        Assert.True(check.Fatigue!.BeyondTested);
        Assert.Equal(PipeVerdict.Near, check.Fatigue.Verdict);
        Assert.Contains("extrapolations", Said(check), StringComparison.Ordinal);
    }

    [Fact]
    public void The_weakest_fitting_is_named_first()
    {
        var check = PipeRating.Check(Steel with { Fittings = [new("union", 16e5), new("rubber hose", 6e5), new("air vessel", null)] });
        Assert.Equal("rubber hose", check.Fittings[0].Name);
        Assert.Equal(PipeVerdict.Over, check.Fittings[0].Verdict);
        Assert.Equal(PipeVerdict.Over, check.Verdict);
        Assert.Contains("rubber hose", Said(check), StringComparison.Ordinal);
        Assert.Equal(PipeVerdict.Unknown, check.Fittings[^1].Verdict);
    }

    [Fact]
    public void A_recorded_rainflow_count_and_one_cycle_a_beat_agree_where_the_record_is_just_that()
    {
        double[] beat = [-0.3e5, 9e5];
        var samples = Enumerable.Range(0, 60).SelectMany(_ => beat).Append(-0.3e5).ToArray();
        var counted = PipeRating.Check(Pvc with { Cycles = RainflowHistogram.Of(samples, -1e5, 10e5), CyclesDurationS = 60 });
        var assumed = PipeRating.Check(Pvc);
        Assert.Equal(1, counted.FatigueLifeYears!.Value / assumed.FatigueLifeYears!.Value, 0.02);
    }

    [Fact]
    public void Suction_is_judged_against_vapour_and_against_folding()
    {
        // 1 bar of suction against a wall of SDR 50: 2·2.4e9/(1 − 0.16)/49³ = 0.49 bar by hand.
        var thin = PipeRating.Check(Pvc with { BoreM = 0.096, WallM = 0.002, TroughPa = -1.0e5 }).Suction!;
        Assert.Equal(PipeVerdict.Over, thin.CollapseVerdict);
        Assert.Equal(0.486e5, thin.CollapsePa!.Value, 0.005e5);
        Assert.Equal(CavityState.Reached, thin.Cavity);
        var sound = PipeRating.Check(Steel).Suction!;
        Assert.Equal(PipeVerdict.Within, sound.CollapseVerdict);
        Assert.Equal(CavityState.Whole, sound.Cavity);
        Assert.Equal(CavityState.Likely, PipeRating.Check(Steel with { TroughPa = -0.98e5, TroughUncertaintyPa = 0.05e5 }).Suction!.Cavity);
        Assert.Equal(CavityState.Unknown, PipeRating.Check(Steel with { TroughPa = null }).Suction!.Cavity);
    }

    [Fact]
    public void The_rule_named_is_the_one_that_decided()
    {
        Assert.StartsWith("Fatigue of PVC-U: rainflow count (ASTM E1049-85)", PipeRating.Check(Pvc).Rule, StringComparison.Ordinal);
        Assert.StartsWith("AWWA C900", PipeRating.Check(Pvc with { PeakPa = 30e5 }).Rule, StringComparison.Ordinal);
        Assert.StartsWith("ASME B31.3", PipeRating.Check(Steel).Rule, StringComparison.Ordinal);
        Assert.StartsWith("Fatigue of steel: EN 1993-1-9", PipeRating.Check(Steel with { PeakPa = 15e5 }).Rule, StringComparison.Ordinal);
        var hose = PipeRating.Check(Steel with { Fittings = [new("rubber hose", 6e5)] });
        Assert.Contains("weakest part, rubber hose", hose.Rule, StringComparison.Ordinal);
    }

    [Fact]
    public void A_sensor_slower_than_a_sixth_of_a_pipe_period_never_says_within()
    {
        // 50 ms of pipe period: 8 ms are within a sixth, 9 ms are not.
        Assert.Equal(PipeVerdict.Within, PipeRating.Check(Steel with { SensorResponseS = 0.008 }).Verdict);
        var slow = PipeRating.Check(Steel with { SensorResponseS = 0.009 });
        Assert.Equal(PipeVerdict.Unknown, slow.Verdict);
        Assert.Contains(slow.Notes, n => n.ToString().Contains("smooths the peaks away", StringComparison.Ordinal));
    }

    [Fact]
    public void Peaks_that_slipped_between_the_samples_stretch_the_cycles_that_were_counted()
    {
        double[] seen = [-0.3e5, 7e5];
        double[] true_ = [-0.3e5, 9e5];
        RainflowHistogram Count(double[] beat) => RainflowHistogram.Of(
            [.. Enumerable.Range(0, 60).SelectMany(_ => beat), -0.3e5], -1e5, 10e5);
        var stretched = PipeRating.Check(Pvc with { Cycles = Count(seen), CyclesDurationS = 60, CyclesPeakPa = 7e5 });
        var whole = PipeRating.Check(Pvc with { Cycles = Count(true_), CyclesDurationS = 60, CyclesPeakPa = 9e5 });
        Assert.Equal(1, stretched.FatigueLifeYears!.Value / whole.FatigueLifeYears!.Value, 0.02);
    }

    [Fact]
    public void The_spread_of_lives_holds_every_combination_and_its_ends_are_the_range()
    {
        var fatigue = PipeRating.Check(Pvc).Fatigue!;
        // Four curves, three ends of the load, three sums at failure.
        Assert.Equal(36, fatigue.Outcomes.Count);
        Assert.Equal(fatigue.Outcomes.Order(), fatigue.Outcomes);
        Assert.Equal(fatigue.Life!.Low, fatigue.Outcomes[0]);
        Assert.Equal(fatigue.Life.High, Math.Min(100, fatigue.Outcomes[^1]));
        Assert.Contains("Of 36 combinations", fatigue.Explanation, StringComparison.Ordinal);
    }

    [Fact]
    public void A_sentence_keeps_its_pressures_for_the_reader_s_own_unit()
    {
        var peak = PipeRating.Check(Pvc).Explanation[0];
        Assert.Contains("9.00 ± 0.30 bar (130.5 ± 4.4 psi)", peak.ToString(), StringComparison.Ordinal);
        // 1 mH2O is 9806.65 Pa (NIST SP 811): 9 bar are 91.8 m of water.
        Assert.Contains("91.8 m", peak.Write(p => $"{p.Pa / 9806.65:0.0} m"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_peak_above_the_ceiling_is_wondered_about()
    {
        var check = PipeRating.Check(Steel with { CeilingPa = 6e5, CeilingUncertaintyPa = 0.5e5, CeilingIsMeasured = true });
        Assert.Contains(check.Notes, n => n.ToString().Contains("stands above static + aV/g", StringComparison.Ordinal));
        var below = PipeRating.Check(Steel with { CeilingPa = 10e5, CeilingUncertaintyPa = 0.5e5 });
        Assert.DoesNotContain(below.Notes, n => n.ToString().Contains("stands above", StringComparison.Ordinal));
    }

    [Fact]
    public void Suction_is_put_in_words_whatever_it_is()
    {
        string Words(double? trough, double u) => string.Join(" ", PipeRating.Check(Steel with { TroughPa = trough, TroughUncertaintyPa = u }).Suction!.Remarks);
        Assert.Contains("column stays whole", Words(-0.3e5, 0.05e5), StringComparison.Ordinal);
        Assert.Contains("can't tell them apart", Words(-0.98e5, 0.05e5), StringComparison.Ordinal);
        Assert.Contains("the water column parts", Words(-1.01e5, 0.05e5), StringComparison.Ordinal);
        Assert.Contains("is not known", Words(null, 0.05e5), StringComparison.Ordinal);
    }

    private static string Said(PipeCheck check) => string.Join(" ", check.Explanation);
}
