using Clackbeat.Season.Overview;
using Clackbeat.Season.Store;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.States;
using Clackbeat.Site;

namespace Clackbeat.Season.Tests;

/// <summary>Which rams need a visit: by summaries made up here, so that each rule stands alone.</summary>
public class OverviewTests
{
    private static readonly DateTimeOffset Now = new(2026, 5, 1, 12, 0, 0, TimeSpan.Zero);

    // 5 L/min with a ± of 0.3, day and night.
    private static readonly SeasonValue FiveLitres = new(5 / 6e4, 0.3 / 6e4);

    [Fact]
    public void A_ram_that_is_well_needs_no_visit() => Assert.Equal((VisitUrgency.None, 0), Judged(Well()));

    [Fact]
    public void A_stopped_ram_comes_before_a_fault_and_a_fault_before_a_well_one()
    {
        RamSummary[] rams =
        [
            Well() with { Ram = "a well one" },
            Well() with { Ram = "a sticking one", Conditions = new Dictionary<string, double> { [Conditions.WasteValveSticking] = 0.6, [Conditions.Healthy] = 0.3 } },
            Well() with { Ram = "a stopped one", Last = new BurstState(Now.AddMinutes(-10), 60, RamState.StoppedOpen) },
        ];
        IReadOnlyList<RamVisit> visits = VisitRules.Judge(rams, new Dictionary<string, RamEntry>(), Now);
        Assert.Equal(["a stopped one", "a sticking one", "a well one"], visits.Select(v => v.Summary.Ram));
        Assert.Equal([VisitUrgency.Now, VisitUrgency.Soon, VisitUrgency.None], visits.Select(v => v.Urgency));
        Assert.Equal("advice.waste-valve-sticking", visits[1].ToDo!.Code);
    }

    /// <summary>A fault under one in four is not worth a walk; the number is asserted, for a keeper's day hangs on it.</summary>
    [Theory]
    [InlineData(0.24, VisitUrgency.None)]
    [InlineData(0.26, VisitUrgency.Soon)]
    public void A_fault_is_worth_a_visit_from_one_in_four(double probability, VisitUrgency urgency) => Assert.Equal(
        urgency, Judged(Well() with { Conditions = new Dictionary<string, double> { [Conditions.AirInDrivePipe] = probability } }).Urgency);

    /// <summary>Over the limit of a recurring load is over, whatever else is well.</summary>
    [Theory]
    [InlineData(0.99, VisitUrgency.None)]
    [InlineData(1.01, VisitUrgency.Now)]
    public void A_pipe_over_its_limit_is_for_today(double use, VisitUrgency urgency) =>
        Assert.Equal(urgency, Judged(Well() with { RatingUse = new RecentFigure(new SeasonValue(use, null), null) }).Urgency);

    /// <summary>Three usual spacings, as hours and calendar have it, and never less than six hours.</summary>
    [Theory]
    [InlineData(6, 17, VisitUrgency.None)]
    [InlineData(6, 19, VisitUrgency.Soon)]
    [InlineData(0.25, 5, VisitUrgency.None)]
    [InlineData(0.25, 7, VisitUrgency.Soon)]
    public void A_silent_logger_is_told_by_its_own_schedule(double everyH, double silentH, VisitUrgency urgency) => Assert.Equal(
        urgency, Judged(Well() with { SpacingS = 3600 * everyH, Last = new BurstState(Now.AddHours(-silentH), 60, RamState.Beating) }).Urgency);

    [Fact]
    public void A_fifth_less_than_before_is_told_and_a_bound_is_not_compared()
    {
        SeasonValue usual = FiveLitres with { Value = 1.3 * FiveLitres.Value };
        Assert.Equal(VisitUrgency.Soon, Judged(Well() with { Delivered = new RecentFigure(FiveLitres, usual) }).Urgency);
        Assert.Equal(VisitUrgency.None, Judged(Well() with { Delivered = new RecentFigure(FiveLitres, usual with { IsUpperBound = true }) }).Urgency);
        Assert.Equal(VisitUrgency.None, Judged(Well() with { Delivered = new RecentFigure(FiveLitres, FiveLitres with { Value = 1.1 * FiveLitres.Value }) }).Urgency);
    }

    /// <summary>5 L/min are 7200 L a day; half of the time they are 3600.</summary>
    [Fact]
    public void Water_a_day_counts_the_hours_that_the_ram_stood_still()
    {
        RamVisit visit = Assert.Single(VisitRules.Judge([Well() with { BeatingShare = 0.5 }], Needs(7200), Now));
        Assert.Equal(3600, 86_400_000 * visit.DailyM3PerS!.Value.Value, 1e-6);
        Assert.Equal(0.5, visit.ShareOfNeed!.Value, 1e-9);
        Assert.Equal("visit.under-need", Assert.Single(visit.Reasons).Code);
    }

    [Fact]
    public void A_need_within_the_uncertainty_is_no_reason_to_walk_and_a_bound_below_it_is()
    {
        Assert.Equal(VisitUrgency.None, Assert.Single(VisitRules.Judge([Well()], Needs(7500), Now)).Urgency);
        Assert.Equal(VisitUrgency.Soon, Assert.Single(VisitRules.Judge([Well()], Needs(7800), Now)).Urgency);
        RamSummary bound = Well() with { Delivered = new RecentFigure(FiveLitres with { IsUpperBound = true }, null) };
        Assert.Equal(VisitUrgency.Soon, Assert.Single(VisitRules.Judge([bound], Needs(7500), Now)).Urgency);
    }

    [Fact]
    public void A_list_gives_place_need_and_keeper_in_any_order_of_columns()
    {
        using var folder = new TemporaryFolder();
        File.WriteAllText(folder["rams.csv"], "keeper;need;ram;longitude;latitude\nAnna;\"3000 L/day\";Mill;33.5;-13.25\n;;Ford;;\n");
        IReadOnlyDictionary<string, RamEntry> rams = RamList.Read(folder["rams.csv"]);
        Assert.Equal((new Position(-13.25, 33.5), "Anna"), (rams["Mill"].Place, rams["Mill"].Keeper));
        Assert.Equal(3000, 86_400_000 * rams["Mill"].NeedM3PerS!.Value, 1e-6);
        Assert.Equal(("Ford", null, null, ""), (rams["Ford"].Ram, rams["Ford"].Place, rams["Ford"].NeedM3PerS, rams["Ford"].Keeper));
        Assert.Empty(rams["Ford"].Intervals);
    }

    [Theory]
    [InlineData("name,need\nMill,3000 L/day\n", "no column")]
    [InlineData("ram,latitude,longitude\nMill,113,2\n", "line 2")]
    [InlineData("ram,latitude,longitude\nMill,,2\n", "degrees")]
    [InlineData("ram,need\nMill,much\n", "line 2")]
    [InlineData("ram\nMill\nMill\n", "second time")]
    [InlineData("", "rams.csv")]
    public void A_list_that_makes_no_sense_says_where(string text, string says)
    {
        using var folder = new TemporaryFolder();
        File.WriteAllText(folder["rams.csv"], text);
        Assert.Contains(says, Assert.Throws<InputException>(() => RamList.Read(folder["rams.csv"])).Message, StringComparison.Ordinal);
    }

    private static (VisitUrgency Urgency, int Reasons) Judged(RamSummary ram)
    {
        RamVisit visit = Assert.Single(VisitRules.Judge([ram], new Dictionary<string, RamEntry>(), Now));
        return (visit.Urgency, visit.Reasons.Count);
    }

    private static Dictionary<string, RamEntry> Needs(double litresADay) =>
        new() { ["Mill"] = new RamEntry("Mill", null, litresADay / 86_400_000, "") };

    private static RamSummary Well() => new("Mill", new BurstState(Now.AddMinutes(-10), 60, RamState.Beating))
    {
        SpacingS = 900,
        BeatingShare = 1,
        Conditions = new Dictionary<string, double> { [Conditions.Healthy] = 0.95 },
        Delivered = new RecentFigure(FiveLitres, FiveLitres),
        RatingUse = new RecentFigure(new SeasonValue(0.3, null), null),
    };
}
