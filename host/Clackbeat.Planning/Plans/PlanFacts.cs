using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Planning.Pipework;
using Clackbeat.Planning.Wishes;
using Clackbeat.Site.Facts;

namespace Clackbeat.Planning.Plans;

/// <summary>What decides each part of a choice, with its source, and what would change it.</summary>
public static class PlanFacts
{
    private const double LitresPerMinute = 6e4;
    private const double Bar = 1e5;

    /// <summary>A material by its name in the catalogue.</summary>
    /// <param name="material">The material.</param>
    public static Fact Material(PipeMaterial material) => new($"materials.{material}", []);

    internal static IEnumerable<Fact> Reasons(PlanWish wish, RamChoice choice)
    {
        double each = choice.DriveFlowM3PerS / choice.Count;
        yield return Fact.Of(
            "plan-rule-bore", ("bore_mm", 1000 * choice.Size.BoreM), ("flow_l_per_min", LitresPerMinute * each), ("velocity_m_per_s", each / choice.Size.AreaM2),
            ("least_m_per_s", DriveSize.LeastMPerS), ("most_m_per_s", DriveSize.MostMPerS));
        yield return choice.Length.Rule switch
        {
            LengthRule.Fall => Fact.Of(
                "plan-rule-length-fall", ("length_m", choice.Length.LengthM), ("times", choice.Length.LengthM / wish.SupplyHeadM), ("bores", choice.Length.LengthM / choice.Size.BoreM)),
            LengthRule.Bores => Fact.Of(
                "plan-rule-length-bores", ("length_m", choice.Length.LengthM), ("times", choice.Length.LengthM / wish.SupplyHeadM), ("bores", choice.Length.LengthM / choice.Size.BoreM)),
            _ => Fact.Of(
                "plan-rule-length-ground", ("length_m", choice.Length.LengthM), ("low_m", choice.Length.UsualM.Low), ("high_m", choice.Length.UsualM.High)),
        };
        yield return Fact.Of(
            "plan-rule-delivered", ("low_share", choice.Efficiency.Low), ("high_share", choice.Efficiency.High), ("ratio", wish.LiftM / wish.SupplyHeadM));
        if (choice.Trial is { } trial)
        {
            yield return Fact.Of("plan-virtual-ram", ("low_share", trial.Efficiency.Low), ("high_share", trial.Efficiency.High),
                ("drawn_low_l_per_min", LitresPerMinute * trial.DrawnM3PerS.Low), ("drawn_high_l_per_min", LitresPerMinute * trial.DrawnM3PerS.High));
        }

        yield return Fact.Of(
            "plan-rule-main", ("material", Material(choice.Main.Material)), ("class", choice.Main.Class), ("size", choice.Main.Size), ("friction_m", choice.Main.FrictionM), ("rated_bar", choice.Main.RatedPa / Bar));
        yield return Fact.Of("plan-rule-vessel", ("volume_l", 1000 * choice.AirVesselM3));
        yield return Fact.Of(
            "plan-rule-intake", ("depth_m", choice.Intake.SubmergenceM), ("tank_l", 1000 * choice.Intake.TankM3), ("open_cm2", 1e4 * choice.Intake.OpenAreaM2), ("hole_mm", 1000 * choice.Intake.HoleM));
    }

    internal static IEnumerable<Fact> WouldChange(PlanWish wish, RamChoice best)
    {
        yield return Fact.Of("plan-change-fall");
        if (wish.Kind == RamKind.Unknown)
        {
            yield return Fact.Of("plan-change-kind");
        }

        if (wish.DryFlowM3PerS is null && wish.MonthlyFlowM3PerS.Count == 0)
        {
            yield return Fact.Of("plan-change-dry");
        }

        if (best.Count > 1)
        {
            yield return Fact.Of("plan-change-count", ("rams", best.Count));
        }
    }
}
