using Clackbeat.Season.Alerts;
using Clackbeat.Season.Store;
using Clackbeat.Signal.States;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using MathNet.Numerics.Distributions;

namespace Clackbeat.Unattended.Tests.Alerts;

/// <summary>Each rule on bursts made up to lie to either side of its limit.</summary>
public class AlertRulesTests
{
    private static readonly RamSite Site = SiteFile.Parse(SiteTemplate.Text(Units.Metric), "the template");
    private static readonly DateTimeOffset Start = new(2026, 1, 1, 0, 0, 0, TimeSpan.Zero);

    private readonly Random _random = new(5);
    private readonly Dictionary<AlertKind, AlertStreak> _streaks = [];
    private readonly List<(AlertKind Kind, AlertChange Change, int Burst)> _told = [];
    private AlertRules _rules = new(Site, new AlertLimits(), new RamHistory(), () => null);
    private DateTimeOffset? _mark;
    private int _burst;
    private AlertReading? _raised;

    [Fact]
    public void Peaks_beyond_the_rating_are_told_at_the_second_burst_and_far_beyond_at_the_first()
    {
        Take(1, Usual(rating: 1.1));
        Take(3, Usual(rating: 0.9));
        Take(2, Usual(rating: 1.1));
        Assert.Equal([(AlertKind.OverRating, AlertChange.Raised, 6)], _told);
        Take(8, Usual(rating: 0.9));
        Take(1, Usual(rating: 1.3));
        Assert.Equal([6, 14, 15], _told.Select(t => t.Burst));
    }

    [Fact]
    public void A_low_supply_is_told_after_an_hour_and_one_sample_of_it_is_not()
    {
        Take(3, Usual(headShare: 0.65));
        Take(1, Usual());
        Assert.Empty(_told);
        Take(4, Usual(headShare: 0.65));
        Assert.Equal([(AlertKind.SupplyLow, AlertChange.Raised, 8)], _told);
    }

    // A cut-off of 12 V with the margin of 0.3 V that docs/unattended.md states.
    [Fact]
    public void A_battery_near_its_cut_off_is_told_at_the_second_burst_and_over_only_well_above()
    {
        _rules = new AlertRules(Site with { Battery = new BatterySetup { CutOffV = 12 } }, new AlertLimits(), new RamHistory(), () => null);
        Take(1, Battery(12.2));
        Take(1, Battery(12.4));
        Assert.Empty(_told);
        Take(2, Battery(12.2));
        Assert.Equal([(AlertKind.BatteryLow, AlertChange.Raised, 4)], _told);
        var text = AlertText.Raised("mill", _raised!, Start, Units.Metric, TimeZoneInfo.Utc);
        Assert.Contains("stands at 12.2 V ± 1.2 V; the limit is 12.3 V. Below 12.0 V the logger records no more", text.Body, StringComparison.Ordinal);
        Take(4, Battery(12.5));
        Assert.Single(_told);
        Take(2, Battery(12.9));
        Assert.Equal((AlertKind.BatteryLow, AlertChange.Cleared, 10), _told[^1]);
    }

    [Fact]
    public void Without_a_cut_off_in_the_site_file_no_battery_is_called_low()
    {
        Take(8, Battery(9));
        Assert.Empty(_told);
    }

    [Fact]
    public void What_is_uneven_is_told_by_the_rams_own_past()
    {
        // A ram that has always beaten with 10 % of unevenness is left alone at 15, where one that beats with 2 % is not.
        Take(20 * 96, () => Usual(irregularity: 0.1)() with { });
        _told.Clear();
        _streaks.Clear();
        Take(8, Usual(irregularity: 0.15));
        Assert.Empty(_told);
        Take(4, Usual(irregularity: 0.3));
        Assert.Equal([AlertKind.Irregular], _told.Select(t => t.Kind));
        AnotherRam();
        Take(20 * 96, Usual());
        Take(4, Usual(irregularity: 0.15));
        Assert.Equal([AlertKind.Irregular], _told.Select(t => t.Kind));
    }

    [Fact]
    public void A_fallen_efficiency_is_told_after_three_days_and_forgotten_when_the_ram_was_worked_on()
    {
        Take(30 * 96, Usual());
        Assert.Empty(_told);
        Take(6 * 96, Usual(efficiency: 0.48));
        (AlertKind kind, AlertChange change, int burst) = Assert.Single(_told);
        Assert.Equal((AlertKind.EfficiencyDown, AlertChange.Raised), (kind, change));

        // The third day that lies low is over when its successor's first burst comes.
        Assert.Equal((33 * 96) + 1, burst);

        // After the work the new efficiency is what the ram is measured by; its own fall is told again.
        _mark = Now;
        Take(25 * 96, Usual(efficiency: 0.48));
        _told.Clear();
        _streaks.Clear();
        Take(6 * 96, Usual(efficiency: 0.38));
        Assert.Equal([AlertKind.EfficiencyDown], _told.Select(t => t.Kind));
    }

    /// <summary>A ram without a baseline gives bounds on all days: a bound is then compared with a bound, and the words say so.</summary>
    [Fact]
    public void Bounds_are_compared_with_bounds_and_it_is_said()
    {
        Take(30 * 96, Usual(isBound: true));
        Assert.Empty(_told);
        Take(6 * 96, Usual(efficiency: 0.48, isBound: true));
        Assert.Equal([AlertKind.EfficiencyDown], _told.Select(t => t.Kind));
        string body = Words();
        Assert.Matches("its efficiency is at most 4[78]", body);
        Assert.Matches("it was at most (59|60)", body);
        Assert.Contains("bound is compared with bound", body, StringComparison.Ordinal);
    }

    /// <summary>
    /// Bounds of 60 % may have hidden a true 45 %, so a figure of 45 % after them is no fall. The other way round "at most 45 %" lies under
    /// a figure of 60 % whatever the leak, and tells a fall; "at most 60 %" after figures of 60 % tells nothing.
    /// </summary>
    [Fact]
    public void A_figure_is_not_judged_by_bounds_and_a_bound_under_the_limit_of_figures_is_a_fall()
    {
        Take(20 * 96, Usual(isBound: true));
        Take(6 * 96, Usual(efficiency: 0.45));
        Assert.Empty(_told);

        AnotherRam();
        Take(20 * 96, Usual());
        Take(6 * 96, Usual(isBound: true));
        Assert.Empty(_told);
        Take(6 * 96, Usual(efficiency: 0.45, isBound: true));
        Assert.Equal([AlertKind.EfficiencyDown], _told.Select(t => t.Kind));
        Assert.Contains("it may be lower still", Words(), StringComparison.Ordinal);

        // Over again, but only as a bound: nothing says that the efficiency is back.
        Take(6 * 96, Usual(isBound: true));
        Assert.Single(_told);
    }

    /// <summary>
    /// Six deviations, written out: with a day's efficiency scattering by 4 % to either side the median absolute deviation gives
    /// 0.059 of it, so three deviations would tell a fall of a fifth and six wait for three eighths. A ram that scatters so
    /// would bring a false alert a season at three.
    /// </summary>
    [Fact]
    public void A_fall_within_six_deviations_of_the_rams_own_days_is_not_told_and_one_beyond_is()
    {
        Func<SeasonBurst> Day(double efficiency) => () =>
            Usual(efficiency: efficiency * (1 + ((_burst / 96) % 2 == 0 ? 0.04 : -0.04)))();
        Take(20 * 96, Day(0.6));
        Take(10 * 96, Day(0.6 * 0.75));
        Assert.Empty(_told);
        Take(6 * 96, Day(0.6 * 0.5));
        Assert.Equal([AlertKind.EfficiencyDown], _told.Select(t => t.Kind));
    }

    /// <summary>The numbers that decide when a keeper is called out, with what each of them means at the ram.</summary>
    [Fact]
    public void The_usual_limits_are_these_numbers()
    {
        var limits = new AlertLimits();
        Assert.Equal(1, limits.RatingUse); // A ram's peak comes back with every beat, so no surge allowance above the rating.
        Assert.Equal(0.15, limits.EfficiencyDrop); // Three times what one minute's estimate scatters by (docs/flow-method.md).
        Assert.Equal(0.7, limits.SupplyLow);
        Assert.Equal(0.08, limits.IrregularityLeast);
        Assert.Equal(TimeSpan.FromHours(1), limits.SilentAfter);
    }

    [Fact]
    public void A_drought_is_no_fallen_efficiency()
    {
        // Efficiency follows the level by 0.25 a metre; the level sinks by a fifth of 2.5 m over two months and comes and goes.
        double Level(int burst) => 1 - (0.2 * Math.Min(1, Math.Max(0, burst - (20 * 96.0)) / (60 * 96))) + (0.02 * Math.Sin(burst / 300.0));
        Take(90 * 96, () => Usual(headShare: Level(_burst), efficiency: 0.6 + (0.25 * Site.Supply.HeadM * (Level(_burst) - 1)))());
        Assert.DoesNotContain(_told, t => t.Kind == AlertKind.EfficiencyDown);
    }

    [Fact]
    public void A_dead_sensor_is_told_as_a_silent_logger_and_not_as_a_stopped_ram()
    {
        Take(4, () => Burst(RamState.NoSignal, []));
        Assert.Equal([(AlertKind.LoggerSilent, AlertChange.Raised, 4)], _told);
        Take(1, Usual());
        Assert.Equal(AlertChange.Cleared, _told[^1].Change);
    }

    [Fact]
    public void Silence_is_three_periods_at_least()
    {
        Assert.Null(_rules.Silence(Start, TimeSpan.FromMinutes(59), TimeSpan.FromMinutes(15)));
        Assert.NotNull(_rules.Silence(Start, TimeSpan.FromMinutes(61), TimeSpan.FromMinutes(15)));
        Assert.Null(_rules.Silence(Start, TimeSpan.FromHours(5.9), TimeSpan.FromHours(2)));
    }

    private string Words() => AlertText.Raised("mill", _raised!, Start, Units.Metric, TimeZoneInfo.Utc).Body;

    private DateTimeOffset Now => Start.AddMinutes(15 * _burst);

    private void AnotherRam()
    {
        _rules = new AlertRules(Site, new AlertLimits(), new RamHistory(), () => _mark);
        _streaks.Clear();
        _told.Clear();
    }

    public AlertRulesTests() => AnotherRam();

    private void Take(int count, Func<SeasonBurst> burst)
    {
        for (int i = 0; i < count; i++)
        {
            SeasonBurst next = burst() with { StartUtc = Now };
            _burst++;
            foreach (AlertReading reading in _rules.Take(next))
            {
                (_streaks[reading.Kind], AlertChange change) = AlertJudge.Take(_streaks.GetValueOrDefault(reading.Kind, new AlertStreak()), reading);
                if (change != AlertChange.None)
                {
                    _raised = reading;
                    _told.Add((reading.Kind, change, _burst));
                }
            }
        }
    }

    private Func<SeasonBurst> Usual(double rating = 0.6, double headShare = 1, double irregularity = 0.02, double efficiency = 0.6, bool isBound = false) => () => Burst(RamState.Beating, new()
    {
        [SeasonFigure.RatingUse] = new(rating, null),
        [SeasonFigure.SupplyHead] = new(headShare * Site.Supply.HeadM, 0.02),
        [SeasonFigure.Irregularity] = new(irregularity * Math.Exp(Normal.Sample(_random, 0, 0.1)), null),
        [SeasonFigure.Efficiency] = new(efficiency * (1 + Normal.Sample(_random, 0, 0.02)), 0.03) { IsUpperBound = isBound },
    });

    private Func<SeasonBurst> Battery(double volts) => () =>
    {
        SeasonBurst burst = Usual()();
        return burst with { Figures = new Dictionary<SeasonFigure, SeasonValue>(burst.Figures) { [SeasonFigure.Battery] = new(volts, 0.1 * volts) } };
    };

    private static SeasonBurst Burst(RamState state, Dictionary<SeasonFigure, SeasonValue> figures) => new()
    {
        Ram = "mill",
        SourceHash = new byte[32],
        Source = "made up",
        StartUtc = Start,
        DurationS = 60,
        State = state,
        Figures = figures,
    };
}
