using Clackbeat.Season.Alerts;
using Clackbeat.Season.Store;
using Clackbeat.Signal.Analysis;
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
                    _told.Add((reading.Kind, change, _burst));
                }
            }
        }
    }

    private Func<SeasonBurst> Usual(double rating = 0.6, double headShare = 1, double irregularity = 0.02, double efficiency = 0.6) => () => Burst(RamState.Beating, new()
    {
        [SeasonFigure.RatingUse] = new(rating, null),
        [SeasonFigure.SupplyHead] = new(headShare * Site.Supply.HeadM, 0.02),
        [SeasonFigure.Irregularity] = new(irregularity * Math.Exp(Normal.Sample(_random, 0, 0.1)), null),
        [SeasonFigure.Efficiency] = new(efficiency * (1 + Normal.Sample(_random, 0, 0.02)), 0.03),
    });

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
