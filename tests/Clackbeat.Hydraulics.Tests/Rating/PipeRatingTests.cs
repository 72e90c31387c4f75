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
    public void Pvc_inside_its_static_rating_but_worn_out_by_every_curve_has_two_verdicts()
    {
        PipeCheck check = PipeRating.Check(Pvc);
        Assert.Equal(PipeVerdict.Within, check.PressureVerdict);
        Assert.Equal(PipeVerdict.Within, check.Verdict);
        Assert.Equal(PipeVerdict.Over, check.FatigueVerdict);
        Assert.Equal(FatigueCoverage.Life, check.Fatigue!.Coverage);
        Assert.True(check.FatigueLifeYears!.High < 20, check.ToString());
        Assert.True(check.FatigueLifeYears.Low < check.FatigueLifeYears.Value && check.FatigueLifeYears.Value < check.FatigueLifeYears.High);
        Assert.Equal(4, check.Fatigue.Curves.Count);
    }

    [Fact]
    public void A_steel_pipe_at_a_tenth_of_its_rating_isn_t_alarmed_about()
    {
        PipeCheck check = PipeRating.Check(Steel with { PeakPa = 2.5e5 });
        Assert.Equal(PipeVerdict.Within, check.Verdict);
        Assert.Equal(FatigueCheck.LongestLifeYears, check.FatigueLifeYears!.Low);
        Assert.Equal(PipeVerdict.Within, check.FatigueVerdict);
    }

    [Fact]
    public void An_ordinary_galvanised_ram_pipe_passes() =>
        Assert.Equal(PipeVerdict.Within, PipeRating.Check(Steel).Verdict);

    [Fact]
    public void A_clipped_or_slow_or_doubtful_sensor_never_says_within() =>
        Gen.Select(Gen.Double[0.1e5, 40e5], Gen.Int[0, 2]).Sample((peak, fault) =>
        {
            foreach (PipeLoad? load in new[] { Pvc, Steel })
            {
                PipeLoad faulty = (load with { PeakPa = peak, PeakUncertaintyPa = 0 }) switch
                {
                    var l when fault == 0 => l with { Clipped = true },
                    var l when fault == 1 => l with { SampleRateHz = 100 },
                    var l => l with { PeakIsLowerBound = true },
                };
                PipeCheck check = PipeRating.Check(faulty);
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
                (PipeCheck? low, PipeCheck? high) = (PipeRating.Check(load with { PeakPa = Math.Min(a, b) }), PipeRating.Check(load with { PeakPa = Math.Max(a, b) }));
                Assert.True(Rank(low.PressureVerdict) <= Rank(high.PressureVerdict));
                Assert.True((low.FatigueLifeYears?.Value ?? 0) >= (high.FatigueLifeYears?.Value ?? 0));
            });
    }

    [Fact]
    public void What_is_printed_on_the_pipe_wins_over_the_tables()
    {
        PipeCheck check = PipeRating.Check(Pvc with { PrintedRatingPa = 12e5 });
        Assert.Equal(12e5, check.RatedPa);
        Assert.Equal(RatingOrigin.Printed, check.Source!.Origin);
    }

    [Fact]
    public void Where_series_conflict_the_lowest_is_taken_and_the_others_are_offered()
    {
        // 63 mm × 4.7 mm is PN 16 by ISO 1452 (SDR 13.6) and SDR 13.5 by ASTM D2241, 315 psi or 21.7 bar.
        PipeCheck check = PipeRating.Check(Pvc with { BoreM = 0.0536, WallM = 0.0047 });
        Assert.Equal(16e5, check.AllowablePa!.Value, 1);
        RatingAlternative other = Assert.Single(check.Alternatives, a => a.Basis == AlternativeBasis.OtherRating);
        Assert.Equal(21.7e5, other.AllowablePa, 0.1e5);
    }

    [Fact]
    public void A_tabled_size_with_the_pipe_s_diameter_and_wall_is_that_pipe()
    {
        // 2 in Schedule 40: 280 psi (ASTM D1785).
        PipeCheck check = PipeRating.Check(Pvc);
        Assert.Equal(280 * 6894.757, check.AllowablePa!.Value, 1);
        Assert.StartsWith("Schedule 40, 2 in", check.Source!.Name, StringComparison.Ordinal);
    }

    [Fact]
    public void Steel_that_only_an_uninspected_weld_could_fail_is_within_by_pressure_and_open_by_fatigue()
    {
        PipeCheck check = PipeRating.Check(Steel with { PeakPa = 15e5 });
        Assert.Equal(PipeVerdict.Within, check.Verdict);
        Assert.Equal(PipeVerdict.Near, check.FatigueVerdict);
    }

    [Fact]
    public void An_unknown_rating_is_never_called_allowed_by_its_pressure()
    {
        PipeCheck check = PipeRating.Check(Pvc with { TemperatureC = 70 });
        Assert.Equal(PipeVerdict.Unknown, check.Verdict);
        Assert.Equal(PipeVerdict.Over, check.FatigueVerdict);
        Assert.Contains(check.Remarks, r => r.Code == RatingRemarkCode.AllowableUnknown);
    }

    [Fact]
    public void Nothing_known_is_said_to_be_unknown_and_why()
    {
        PipeCheck check = PipeRating.Check(new PipeLoad { Material = PipeMaterial.Other, BoreM = 0.05 });
        Assert.Equal(PipeVerdict.Unknown, check.Verdict);
        Assert.Null(check.AllowablePa);
        Assert.Null(check.FatigueLifeYears);
        Assert.Contains(check.Notes, n => n.Code == RatingRemarkCode.RatingUnknown);
    }

    [Fact]
    public void Every_material_is_judged_without_an_accident() =>
        Gen.Select(Gen.Enum<PipeMaterial>(), Gen.Enum<PipeJoint>(), Gen.Double[0.008, 0.3], Gen.Double[0.02, 0.3], Gen.Double[-5, 70], Gen.Double[-1e5, 50e5])
            .Sample((material, joint, bore, share, temperature, peak) =>
            {
                PipeCheck check = PipeRating.Check(Pvc with
                {
                    Material = material,
                    Joint = joint,
                    BoreM = bore,
                    WallM = bore * share,
                    TemperatureC = temperature,
                    PeakPa = peak,
                });
                Assert.NotEmpty(check.Remarks);
                Assert.True(check.AllowablePa is null or >= 0);
            });

    [Fact]
    public void Materials_without_a_curve_are_said_not_to_be_covered()
    {
        foreach (PipeMaterial material in new[] { PipeMaterial.Copper, PipeMaterial.DuctileIron, PipeMaterial.PvcO, PipeMaterial.Abs })
        {
            PipeCheck check = PipeRating.Check(Pvc with { Material = material, PrintedRatingPa = 25e5 });
            Assert.Equal(FatigueCoverage.NotCovered, check.Fatigue!.Coverage);
            Assert.Null(check.FatigueLifeYears);
        }
    }

    [Fact]
    public void A_life_beyond_any_test_says_so_and_is_at_best_near()
    {
        PipeCheck check = PipeRating.Check(Pvc with { PeakPa = 0.4e5, PeakUncertaintyPa = 0.01e5, TroughPa = 0 });
        Assert.True(check.Fatigue!.BeyondTested);
        Assert.Equal(PipeVerdict.Near, check.Fatigue.Verdict);
    }

    [Fact]
    public void The_weakest_fitting_is_named_first()
    {
        PipeCheck check = PipeRating.Check(Steel with { Fittings = [new("union", 16e5), new("rubber hose", 6e5), new("air vessel", null)] });
        Assert.Equal("rubber hose", check.Fittings[0].Name);
        Assert.Equal(PipeVerdict.Over, check.Fittings[0].Verdict);
        Assert.Equal(PipeVerdict.Over, check.Verdict);
        Assert.Contains(check.Remarks, r => r is { Code: RatingRemarkCode.PartOver, Part: "rubber hose", LimitPa: 6e5 });
        Assert.Equal(PipeVerdict.Unknown, check.Fittings[^1].Verdict);
    }

    [Fact]
    public void A_recorded_rainflow_count_and_one_cycle_a_beat_agree_where_the_record_is_just_that()
    {
        double[] beat = [-0.3e5, 9e5];
        double[]? samples = Enumerable.Range(0, 60).SelectMany(_ => beat).Append(-0.3e5).ToArray();
        PipeCheck counted = PipeRating.Check(Pvc with { Cycles = RainflowHistogram.Of(samples, -1e5, 10e5), CyclesDurationS = 60 });
        PipeCheck assumed = PipeRating.Check(Pvc);
        Assert.Equal(1, counted.FatigueLifeYears!.Value / assumed.FatigueLifeYears!.Value, 0.02);
    }

    [Fact]
    public void Suction_is_judged_against_vapour_and_against_folding()
    {
        // 1 bar of suction against a wall of SDR 50: 2·2.4e9/(1 − 0.16)/49³ = 0.49 bar by hand.
        SuctionCheck thin = PipeRating.Check(Pvc with { BoreM = 0.096, WallM = 0.002, TroughPa = -1.0e5 }).Suction!;
        Assert.Equal(PipeVerdict.Over, thin.CollapseVerdict);
        Assert.Equal(0.486e5, thin.CollapsePa!.Value, 0.005e5);
        Assert.Equal(CavityState.Reached, thin.Cavity);
        SuctionCheck sound = PipeRating.Check(Steel).Suction!;
        Assert.Equal(PipeVerdict.Within, sound.CollapseVerdict);
        Assert.Equal(CavityState.Whole, sound.Cavity);
        Assert.Equal(CavityState.Likely, PipeRating.Check(Steel with { TroughPa = -0.98e5, TroughUncertaintyPa = 0.05e5 }).Suction!.Cavity);
        Assert.Equal(CavityState.Unknown, PipeRating.Check(Steel with { TroughPa = null }).Suction!.Cavity);
    }

    [Fact]
    public void The_rule_named_is_the_one_that_decided()
    {
        Assert.Equal((PressureRule.AwwaC900, PipeDecision.Pressure), Rule(PipeRating.Check(Pvc with { PeakPa = 30e5 })));
        Assert.Equal((PressureRule.AsmeB313, PipeDecision.Pressure), Rule(PipeRating.Check(Steel)));
        Assert.Equal(FatigueRule.PvcCurves, PipeRating.Check(Pvc).Fatigue!.Rule);
        Assert.Equal(FatigueRule.En1993, PipeRating.Check(Steel with { PeakPa = 15e5 }).Fatigue!.Rule);
        PipeCheck hose = PipeRating.Check(Steel with { Fittings = [new("rubber hose", 6e5)] });
        Assert.Equal((PressureRule.AsmeB313, PipeDecision.Part), Rule(hose));
    }

    [Fact]
    public void A_sensor_slower_than_a_sixth_of_a_pipe_period_never_says_within()
    {
        // 50 ms of pipe period: 8 ms are within a sixth, 9 ms are not.
        Assert.Equal(PipeVerdict.Within, PipeRating.Check(Steel with { SensorResponseS = 0.008 }).Verdict);
        PipeCheck slow = PipeRating.Check(Steel with { SensorResponseS = 0.009 });
        Assert.Equal(PipeVerdict.Unknown, slow.Verdict);
        Assert.Contains(slow.Notes, n => n.Code == RatingRemarkCode.SensorTooSlow);
    }

    [Fact]
    public void Peaks_that_slipped_between_the_samples_stretch_the_cycles_that_were_counted()
    {
        double[] seen = [-0.3e5, 7e5];
        double[] true_ = [-0.3e5, 9e5];
        RainflowHistogram Count(double[] beat) => RainflowHistogram.Of(
            [.. Enumerable.Range(0, 60).SelectMany(_ => beat), -0.3e5], -1e5, 10e5);
        PipeCheck stretched = PipeRating.Check(Pvc with { Cycles = Count(seen), CyclesDurationS = 60, CyclesPeakPa = 7e5 });
        PipeCheck whole = PipeRating.Check(Pvc with { Cycles = Count(true_), CyclesDurationS = 60, CyclesPeakPa = 9e5 });
        Assert.Equal(1, stretched.FatigueLifeYears!.Value / whole.FatigueLifeYears!.Value, 0.02);
    }

    [Fact]
    public void The_spread_of_lives_holds_every_combination_and_its_ends_are_the_range()
    {
        FatigueCheck fatigue = PipeRating.Check(Pvc).Fatigue!;
        // Four curves, three ends of the load, three sums at failure.
        Assert.Equal(36, fatigue.Outcomes.Count);
        Assert.Equal(fatigue.Outcomes.Order(), fatigue.Outcomes);
        Assert.Equal(fatigue.Life!.Low, fatigue.Outcomes[0]);
        Assert.Equal(fatigue.Life.High, Math.Min(100, fatigue.Outcomes[^1]));
    }

    [Fact]
    public void A_peak_above_the_ceiling_is_wondered_about()
    {
        PipeCheck check = PipeRating.Check(Steel with { CeilingPa = 6e5, CeilingUncertaintyPa = 0.5e5, CeilingIsMeasured = true });
        Assert.Contains(check.Notes, n => n.Code == RatingRemarkCode.PeakAboveCeiling);
        PipeCheck below = PipeRating.Check(Steel with { CeilingPa = 10e5, CeilingUncertaintyPa = 0.5e5 });
        Assert.DoesNotContain(below.Notes, n => n.Code == RatingRemarkCode.PeakAboveCeiling);
    }

    [Fact]
    public void Suction_is_told_apart_from_boiling_and_from_what_no_water_can_do()
    {
        RatingRemarkCode Column(double? trough, double u) =>
            PipeRating.Check(Steel with { TroughPa = trough, TroughUncertaintyPa = u }).Suction!.Remarks[0].Code;
        Assert.Equal(RatingRemarkCode.ColumnWhole, Column(-0.3e5, 0.05e5));
        Assert.Equal(RatingRemarkCode.ColumnMayPart, Column(-0.98e5, 0.05e5));
        Assert.Equal(RatingRemarkCode.ColumnParts, Column(-1.01e5, 0.05e5));
        Assert.Equal(RatingRemarkCode.TroughUnknown, Column(null, 0.05e5));
        // The air at sea level presses with 1.01325 bar (ISO 2533): -1.04 bar are below a full vacuum by more than 0.01 bar.
        Assert.Equal(RatingRemarkCode.BelowVacuum, Column(-1.04e5, 0.01e5));
        Assert.Equal(RatingRemarkCode.ColumnParts, Column(-1.04e5, 0.05e5));
        // At 2500 m it presses with 0.747 bar (ISO 2533): there -0.80 bar are below it.
        Assert.Equal(
            RatingRemarkCode.BelowVacuum,
            PipeRating.Check(Steel with { TroughPa = -0.80e5, TroughUncertaintyPa = 0.01e5, AtmospherePa = 0.747e5 }).Suction!.Remarks[0].Code);
    }

    [Fact]
    public void The_pressure_s_verdict_doesn_t_change_with_the_life_it_is_meant_for_and_fatigue_s_does()
    {
        // Folkman's curve gives the middle, Vinson's the low end: between them the sources disagree, and that is "near".
        FatigueLife life = PipeRating.Check(Pvc).FatigueLifeYears!;
        PipeCheck For(double years) => PipeRating.Check(Pvc with { DesignLifeYears = years });
        Assert.Equal(PipeVerdict.Over, For(1.01 * life.High).FatigueVerdict);
        Assert.Equal(PipeVerdict.Near, For(0.99 * life.High).FatigueVerdict);
        Assert.Equal(PipeVerdict.Near, For(1.01 * life.Low).FatigueVerdict);
        Assert.All([1.01 * life.High, 0.5 * life.Low], years => Assert.Equal(PipeVerdict.Within, For(years).Verdict));
        Assert.True(PipeRating.Check(Pvc).Fatigue!.CurveRatio > 2);
    }

    [Fact]
    public void A_table_that_was_not_checked_says_that_the_printed_rating_must_be_read()
    {
        // EN ISO 1452-2 was not at hand when the tables were written; ASTM D1785 was (Machinery's Handbook).
        PipeCheck unchecked_ = PipeRating.Check(Pvc with { BoreM = 0.0536, WallM = 0.0047 });
        Assert.True(unchecked_.Source!.IsUnconfirmed);
        Assert.DoesNotContain("memory", unchecked_.Source.Citation, StringComparison.Ordinal);
        Assert.Contains(unchecked_.Notes, n => n.Code == RatingRemarkCode.RatingUnconfirmed);
        Assert.DoesNotContain(PipeRating.Check(Pvc).Notes, n => n.Code == RatingRemarkCode.RatingUnconfirmed);
    }

    private static (PressureRule, PipeDecision) Rule(PipeCheck check) => (check.Rule, check.DecidedBy);
}
