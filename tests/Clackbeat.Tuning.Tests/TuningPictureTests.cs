using Clackbeat.Tuning.Search;
using Clackbeat.Tuning.Trials;

namespace Clackbeat.Tuning.Tests;

/// <summary>What may not be tried is shaded, and what is shaded is never proposed.</summary>
public class TuningPictureTests
{
    [Fact]
    public void Beyond_a_setting_that_stopped_the_ram_all_is_barred_and_nothing_before_it_is_for_that_reason()
    {
        TuningSession session = Trials.Session([1, 1.1, 1.2], new Random(3)).With(TrialReader.Stood(9, TrialLack.StoppedOpen, ""));
        BarredRange barred = Assert.Single(TuningPicture.Of(session).Barred);
        Assert.Equal(BarredBy.Stopped, barred.Why);
        Assert.InRange(barred.From, 8.9, 9.1);
        Assert.Equal(12, barred.To, 1e-9);
    }

    [Fact]
    public void Where_the_peak_rises_towards_the_pipes_limit_the_settings_beyond_are_barred()
    {
        // Peaks of 3, 3.5 and 4 bar at 4, 6 and 8 mm; a straight line meets 5 bar at 12 mm, and the ± of the peaks sooner.
        TuningSession session = Trials.Empty();
        foreach ((double setting, double peakPa) in new[] { (4.0, 3e5), (6, 3.5e5), (8, 4e5) })
        {
            session = session.With(Trials.Of(setting, 1e-4, 0.5, peakPa, new Random(5), 0.002, allowablePa: 5e5));
        }

        BarredRange barred = Assert.Single(NextSetting.Barred(session));
        Assert.Equal((BarredBy.Pipe, 12), (barred.Why, Math.Round(barred.To, 6)));
        Assert.InRange(barred.From, 8, 12);
        Assert.True(NextSetting.Of(session).Setting < barred.From);
    }

    [Fact]
    public void Before_the_first_trial_nothing_is_barred_and_a_trial_without_figures_is_not_drawn()
    {
        var none = TuningPicture.Of(Trials.Empty().With(TrialReader.Stood(6, TrialLack.NoSignal, "")));
        Assert.Empty(none.Barred);
        Assert.Empty(none.Trials);
        Assert.Empty(none.Curve);
    }

    [Fact]
    public void The_bars_between_trials_are_of_what_stretches_scatter_by()
    {
        // Three stretches that scatter by 1.5 % tell their mean to 1.5 %/√3; its k = 2 ends lie some 1.7 % off.
        PicturedTrial[] trials = [.. TuningPicture.Of(Trials.Session([1, 1, 1, 1, 1, 1], new Random(11))).Trials];
        Assert.All(trials, t => Assert.InRange(Math.Log(t.High / t.Value), 0.01, 0.03));
        Assert.All(trials, t => Assert.Equal(t.High / t.Value, t.Value / t.Low, 1e-9));
    }

    [Fact]
    public void A_trial_that_is_thrown_away_leaves_the_others_as_they_were()
    {
        TuningSession session = Trials.Session([1, 1.1, 1.2], new Random(2));
        Assert.Equal([4.0, 6], session.Without(1).Trials.Select(t => t.Setting));
    }
}
