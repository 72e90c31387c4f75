using Clackbeat.Planning.Pipework;
using Clackbeat.Planning.Plans;
using Clackbeat.Planning.Wishes;
using Clackbeat.Site.Check;
using Clackbeat.Site.Files;

namespace Clackbeat.Planning.Tests;

/// <summary>Whole plans, by what their reader gets.</summary>
public class PlannerTests
{
    private static readonly PlanWish Usual = new() { SupplyHeadM = 3, SupplyFlowM3PerS = 60 / 6e4, LiftM = 25, Kind = RamKind.Cast };

    [Fact]
    public void A_usual_spring_gets_a_two_inch_ram_as_published_size_tables_say()
    {
        // 2 inch: 8 to 18 US gallons a minute, 30 to 68 L/min (H. N. Ogden, Rural Hygiene, 1911, table XI).
        RamChoice best = Planner.Of(Usual).Choices[0];
        Assert.Equal((1, "2 in"), (best.Count, best.Size.Pipe.Size));
        Assert.InRange(best.Length.LengthM / best.Size.BoreM, 150, 1000);
        Assert.InRange(best.Length.LengthM / 3, 4, 7);
    }

    [Fact]
    public void The_energy_lifted_is_never_more_than_the_energy_that_falls()
    {
        foreach (PlanWish wish in Wishes())
        {
            Assert.All(Planner.Of(wish).Choices, c =>
                Assert.True(c.DeliveredM3PerS.High * wish.LiftM < c.DriveFlowM3PerS * wish.SupplyHeadM, $"{wish}"));
        }
    }

    [Fact]
    public void Each_ram_takes_a_flow_that_published_rams_of_its_size_take()
    {
        foreach (PlanWish wish in Wishes())
        {
            Assert.All(Planner.Of(wish).Choices, c =>
                Assert.InRange(c.DriveFlowM3PerS / c.Count / c.Size.AreaM2, DriveSize.LeastMPerS - 1e-9, DriveSize.MostMPerS + 1e-9));
        }
    }

    [Fact]
    public void With_a_dry_season_some_rams_stand_and_one_still_runs()
    {
        double[] months = [120, 120, 110, 90, 60, 40, 25, 20, 22, 40, 80, 110];
        RamPlan plan = Planner.Of(Usual with { SupplyFlowM3PerS = 100 / 6e4, MonthlyFlowM3PerS = [.. months.Select(m => m / 6e4)] });
        RamChoice best = plan.Choices[0];
        Assert.True(best.Count > 1);
        Assert.Equal(12, best.Months.Count);
        Assert.All(best.Months, m => Assert.InRange(m.Running, 1, best.Count));
        Assert.True(best.Months[7].Running < best.Months[0].Running);
        Assert.True(best.Months[7].DeliveredM3PerS.High < best.Months[0].DeliveredM3PerS.Low);
    }

    [Fact]
    public void The_site_file_of_a_plan_is_one_that_the_site_check_takes()
    {
        foreach (PlanWish wish in Wishes())
        {
            SiteReading reading = SiteFile.ReadText(Planner.Of(wish).Choices[0].SiteText, "plan.toml");
            var check = SiteCheck.Of(reading);
            Assert.Empty(check.Problems);
            Assert.Equal(wish.LiftM, check.Site!.Delivery.HeadM, 3);
        }
    }

    [Theory]
    [InlineData(0, 60, 25, "plan-no-fall")]
    [InlineData(3, 60, 3, "plan-lift-below-supply")]
    [InlineData(3, 60, 1, "plan-lift-below-supply")]
    [InlineData(0.1, 60, 5, "plan-fall-too-small")]
    [InlineData(3, 0.5, 25, "plan-flow-too-small")]
    [InlineData(1, 60, 200, "plan-lift-too-high")]
    public void What_no_ram_can_do_is_refused_with_its_reason(double fallM, double flowLPerMin, double liftM, string code)
    {
        RamPlan plan = Planner.Of(new PlanWish { SupplyHeadM = fallM, SupplyFlowM3PerS = flowLPerMin / 6e4, LiftM = liftM });
        Assert.Equal(code, plan.Refusal?.Code);
        Assert.Empty(plan.Choices);
    }

    [Fact]
    public void Friction_of_the_main_stays_within_a_twentieth_of_the_lift_and_its_class_bears_the_lift()
    {
        foreach (PlanWish? wish in Wishes().Where(w => w.LiftM < 150))
        {
            DeliveryMain main = Planner.Of(wish with { DeliveryLengthM = 400 }).Choices[0].Main;
            Assert.InRange(main.FrictionM, 0, wish.LiftM / 20);
            Assert.True(main.RatedPa > 9806.65 * wish.LiftM);
        }
    }

    private static IEnumerable<PlanWish> Wishes()
    {
        yield return Usual;
        yield return Usual with { SupplyHeadM = 0.6, LiftM = 6, SupplyFlowM3PerS = 300 / 6e4 };
        yield return Usual with { SupplyHeadM = 12, LiftM = 120, SupplyFlowM3PerS = 15 / 6e4 };
        yield return Usual with { SupplyHeadM = 1.5, LiftM = 30, SupplyFlowM3PerS = 900 / 6e4, Kind = RamKind.HomeMade };
        yield return Usual with { SupplyHeadM = 4, LiftM = 18, SupplyFlowM3PerS = 1800 / 6e4, Kind = RamKind.Unknown };
        yield return Usual with { SupplyFlowM3PerS = 4 / 6e4 };
    }
}
