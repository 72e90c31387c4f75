using Clackbeat.Hydraulics.Water;
using Clackbeat.Planning.Bills;
using Clackbeat.Planning.Others;
using Clackbeat.Planning.Wishes;

namespace Clackbeat.Planning.Tests;

/// <summary>The other pumps against sums by hand.</summary>
public class OtherPumpsTests
{
    private static readonly PlanWish Wish = new() { SupplyHeadM = 3, SupplyFlowM3PerS = 60 / 6e4, LiftM = 25 };

    private static IReadOnlyList<Alternative> All(PlanWish wish) =>
        OtherPumps.For(wish, [.. Enumerable.Repeat(3 / 86_400.0, 12)], WaterProperties.At(12));

    [Fact]
    public void Three_cubic_metres_a_day_22_m_up_take_the_energy_of_their_weight_over_the_efficiency()
    {
        // 3 m³ · 999.5 kg/m³ · 9.807 m/s² · 22 m = 647 kJ = 0.180 kWh; a quarter to 0.55 of the electricity does it.
        Alternative mains = All(Wish).Single(a => a.Code == "mains-pump");
        Assert.Equal(0.180 / 0.55, mains.EnergyPerDayJ.Low / 3.6e6, 3);
        Assert.Equal(0.180 / 0.25, mains.EnergyPerDayJ.High / 3.6e6, 2);
    }

    [Fact]
    public void A_turbine_that_lost_nothing_would_share_the_water_by_the_heads()
    {
        // q (h - H) = (Q - q) H η: at 0.4, q = 0.4 · 60 · 3 / (22 + 1.2) = 3.10 L/min.
        Alternative turbine = All(Wish).Single(a => a.Code == "turbine-pump");
        Assert.Equal(3.10, 6e4 * turbine.WaterM3PerS[0].High, 2);
        Assert.Equal(0, turbine.EnergyPerDayJ.High);
    }

    [Fact]
    public void No_pump_lifts_more_than_the_spring_gives()
    {
        PlanWish wish = Wish with { SupplyFlowM3PerS = 1 / 86_400.0 };
        Assert.All(All(wish), a => Assert.All(a.WaterM3PerS, w => Assert.True(w.High <= wish.SupplyFlowM3PerS)));
    }

    [Fact]
    public void The_users_prices_make_costs_and_none_are_invented()
    {
        Assert.All(All(Wish).SelectMany(a => a.Bill), b => Assert.Null(b.Cost));
        BillItem priced = All(Wish with { Prices = new Dictionary<string, double> { ["kwh"] = 0.3 } }).Single(a => a.Code == "mains-pump").Bill[0];
        Assert.Equal(0.3 * priced.Quantity, priced.Cost!.Value, 9);
    }

    [Fact]
    public void All_four_say_what_was_taken_and_what_wears() => Assert.All(All(Wish), a =>
    {
        Assert.NotEmpty(a.Assumptions);
        Assert.NotNull(a.Wear);
    });
}
