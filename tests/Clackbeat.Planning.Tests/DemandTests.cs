using Clackbeat.Hydraulics;
using Clackbeat.Planning.Demand;

namespace Clackbeat.Planning.Tests;

/// <summary>Need, tank and drought months.</summary>
public class DemandTests
{
    private const double DayS = 86_400;

    [Fact]
    public void A_steady_ram_that_gives_the_need_wants_a_tank_of_one_day()
    {
        double[]? flow = Twelve(3 / DayS);
        Assert.Equal(3, StorageTank.SizeM3(flow, flow, 0)!.Value, 2);
    }

    [Fact]
    public void The_tank_carries_what_a_dry_spell_lacks_and_no_more()
    {
        // By hand: August, 31 days, brings nothing and takes 1 m³ a day; every other month brings 2 m³ a day.
        double[] delivered = [.. Enumerable.Range(1, 12).Select(m => m == 8 ? 0 : 2 / DayS)];
        Assert.Equal(31, StorageTank.SizeM3(delivered, Twelve(1 / DayS), 0)!.Value, 0.1);
        // A tenth of the year's 365 m³ may be lacking: 31 m³ are less than that, so a day's tank does.
        Assert.Equal(1, StorageTank.SizeM3(delivered, Twelve(1 / DayS), 0.1)!.Value, 0.01);
    }

    [Fact]
    public void No_tank_makes_water() => Assert.Null(StorageTank.SizeM3(Twelve(1 / DayS), Twelve(2 / DayS), 0.1));

    [Fact]
    public void Months_are_short_by_the_upper_end_and_doubtful_by_the_lower()
    {
        Band[] delivered = [.. Enumerable.Range(1, 12).Select(m => m switch { 7 => new Band(0.5, 0.9), 8 => new Band(0.8, 1.3), _ => new Band(2, 3) })];
        var enough = Sufficiency.Of(delivered, Twelve(1), 0.02);
        Assert.Equal([7], enough.ShortMonths);
        Assert.Equal([8], enough.DoubtfulMonths);
    }

    [Fact]
    public void Every_rate_has_a_source_and_a_range() => Assert.All(NeedRate.All, rate =>
    {
        Assert.NotEmpty(rate.Source);
        Assert.True(rate.M3PerDay.Low > 0 && rate.M3PerDay.High > rate.M3PerDay.Low);
    });

    private static double[] Twelve(double flow) => [.. Enumerable.Repeat(flow, 12)];
}
