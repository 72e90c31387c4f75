using Clackbeat.Tuning.Search;
using Clackbeat.Tuning.Trials;

namespace Clackbeat.Tuning.Tests;

/// <summary>The search on made-up rams whose best setting is known.</summary>
public class NextSettingTests
{
    [Fact]
    public void Eight_trials_find_a_setting_within_three_per_cent_of_the_best_in_nineteen_of_twenty()
    {
        var random = new Random(11);
        double[] misses = [.. Enumerable.Range(0, 60).Select(_ => Miss(random))];

        Assert.InRange(misses.Count(m => m <= 0.03), 57, 60);
    }

    [Fact]
    public void The_pipe_is_a_hard_limit()
    {
        var random = new Random(12);
        (int proposals, int over) = (0, 0);
        for (int i = 0; i < 60; i++)
        {
            // The most water lies where the peak is 40 % over the pipe's limit; the peak grows with the setting.
            double bears = 0.3 + (0.3 * random.NextDouble());
            double Peak(double share) => 3e5 * Math.Exp(0.9 * (share - bears));
            TuningSession session = Run(share => 1e-4 * Math.Exp(-Math.Pow(share - 1, 2)), Peak, random, allowablePa: 3e5, startShare: 0.05);
            proposals += session.Trials.Count - 1;
            over += session.Trials.Skip(1).Count(t => Peak(Trials.Stroke.Share(t.Setting)) > 3e5);
            Trial? best = NextSetting.Of(session).Best;
            Assert.NotNull(best);
            Assert.True(best.WithinRating);
        }

        // The ± of a peak, 8 % here, is kept clear of the limit beside the nineteen chances in twenty.
        Assert.InRange(over / (double)proposals, 0, 0.01);
    }

    [Fact]
    public void A_setting_that_stops_the_ram_is_not_passed_again()
    {
        TuningSession session = Trials.Empty();
        var random = new Random(13);
        for (int i = 0; i < TuningSession.MostTrials && NextSetting.Of(session, 7).Setting is { } setting; i++)
        {
            double share = Trials.Stroke.Share(setting);
            session = session.With(share > 0.6
                ? new Trial { Setting = setting, Works = false, Why = "the ram stopped", Verdict = Hydraulics.Rating.PipeVerdict.Unknown }
                : Trials.Of(setting, 1e-4 * (0.5 + share), 0.5, 3e5, random, 0.01));
        }

        double[] stopped = [.. session.Trials.Where(t => !t.Works).Select(t => t.Setting)];
        for (int i = 1; i < stopped.Length; i++)
        {
            Assert.True(stopped[i] < stopped[i - 1], "It went past a setting that had stopped the ram.");
        }

        Assert.True(NextSetting.Of(session).Best is { Works: true });
    }

    [Fact]
    public void The_gentlest_peak_still_delivers_what_was_asked_for()
    {
        TuningSession session = Run(
            share => 1e-4 * (0.2 + share), share => 2e5 * (1 + share), new Random(14), null, 0.5,
            Trials.Empty(TuningAim.GentlestPeak) with { EnoughM3PerS = 0.8e-4 });

        Trial best = NextSetting.Of(session).Best!;
        Assert.InRange(Trials.Stroke.Share(best.Setting), 0.57, 0.72);
    }

    [Fact]
    public void Only_settings_that_can_be_made_are_proposed()
    {
        var washers = Knob.Parse("weight 200 g to 900 g by 50 g");
        TuningSession session = Run(share => 1e-4 * (1 + share), _ => 3e5, new Random(15), null, 0.5, Trials.Empty() with { Knob = washers });

        Assert.All(session.Trials, t => Assert.Equal(0, t.Setting % 50, 6));
        Assert.Equal(session.Trials.Count, session.Trials.Select(t => t.Setting).Distinct().Count());
    }

    [Fact]
    public void As_it_is_is_the_setting_as_it_is_even_between_two_steps()
    {
        TuningSession session = Trials.Empty() with { Knob = Knob.Parse("stroke 4.42 mm to 14 mm by 1 mm"), Now = 8.84 };
        Advice first = NextSetting.Of(session);
        Assert.Equal((8.84, AdviceReason.AsItIs), (first.Setting, first.Reason));
    }

    [Fact]
    public void Nothing_is_asked_for_nearer_to_a_trial_than_the_step()
    {
        foreach (string text in new[] { "stroke 0.15 in to 0.5 in", "stroke 4 mm to 12 mm by 1 mm" })
        {
            var knob = Knob.Parse(text);
            for (int seed = 0; seed < 10; seed++)
            {
                TuningSession session = Run(
                    share => 1e-4 * Math.Exp(-0.5 * Math.Pow((share - 0.7) / 0.4, 2)), _ => 3e5, new Random(seed), null, 0.47, Trials.Empty() with { Knob = knob });
                double[] settings = [.. session.Trials.Select(t => t.Setting).Order()];
                Assert.All(settings.Zip(settings.Skip(1)), p => Assert.True(p.Second - p.First >= 0.999 * knob.ProposedStep, $"{p}"));
            }
        }
    }

    [Fact]
    public void Where_all_settings_deliver_alike_the_search_ends_and_the_one_that_wastes_least_is_named()
    {
        // All deliver 6 L/min; the waste falls by a half from the lowest to the highest setting.
        var random = new Random(16);
        TuningSession session = Trials.Empty();
        while (NextSetting.Of(session, 8).Setting is { } setting)
        {
            session = session.With(Trials.Of(setting, 1e-4, 0.4 + (0.4 * Trials.Stroke.Share(setting)), 3e5, random, 0.01));
        }

        Advice end = NextSetting.Of(session);
        double least = session.Trials.Min(t => t.WasteM3PerS!.Value.Value);
        Assert.Equal(least, end.Best!.WasteM3PerS!.Value.Value, 9);
        Assert.NotEmpty(end.Alike);
        Assert.Equal(end.Best.Setting > 11.7 ? RangeEnd.Highest : RangeEnd.None, end.BestAtEnd);
    }

    [Fact]
    public void A_setting_that_delivers_less_is_not_named_for_its_small_waste()
    {
        var random = new Random(17);
        TuningSession session = Trials.Empty()
            .With(Trials.Of(6, 0.8e-4, 0.7, 3e5, random, 0.005))
            .With(Trials.Of(8, 1.0e-4, 0.5, 3e5, random, 0.005))
            .With(Trials.Of(10, 1.0e-4, 0.4, 3e5, random, 0.005));
        Advice advice = NextSetting.Of(session);
        Assert.Equal(8, advice.Best!.Setting);
        Assert.Equal(10, Assert.Single(advice.Alike).Setting);
    }

    [Fact]
    public void A_best_setting_at_the_end_of_the_range_is_said_to_be_there()
    {
        TuningSession session = Run(share => 1e-4 * (1 + share), _ => 3e5, new Random(18), null, 0.5);
        Advice end = NextSetting.Of(session);
        Assert.Equal(12, end.Best!.Setting);
        Assert.Equal(RangeEnd.Highest, end.BestAtEnd);
    }

    // The goal of the twin's use: within 3 % of the best in at most 4 trials in the median and 6 in nine of ten.
    [Fact]
    public void A_twin_that_bends_somewhat_wrongly_saves_trials()
    {
        var random = new Random(19);
        (double Miss, int Trials)[] runs = [.. Enumerable.Range(0, 40).Select(_ => WithTwin(random))];

        Assert.InRange(runs.Count(r => r.Miss <= 0.03), 37, 40);
        Assert.InRange(runs.Select(r => r.Trials).Order().ElementAt(20), 1, 4);
        Assert.InRange(runs.Select(r => r.Trials).Order().ElementAt(35), 1, 6);
    }

    private static (double Miss, int Trials) WithTwin(Random random)
    {
        double top = random.NextDouble();
        double width = 0.3 + (0.7 * random.NextDouble());
        double wrong = 0.2 * (random.NextDouble() - 0.5);
        double Curve(double share) => -0.5 * Math.Pow((share - top) / width, 2);
        double now = 0.2 + (0.6 * random.NextDouble());
        // The unsure parameter tilts the curve about the setting that was recorded; the truth lies somewhere along it.
        TwinCurve twin = Trials.Twin(s => Curve(s) + (wrong * (s - now)), s => 0.1 * (s - now));
        TuningSession session = Trials.Empty();
        Knob knob = session.Knob;
        while (NextSetting.Of(session, knob.Lowest + (now * knob.Span)).Setting is { } setting)
        {
            double share = knob.Share(setting);
            Trial trial = Trials.Of(setting, 1e-4 * Math.Exp(Curve(share)), 0.5, 3e5, random, 0.015);
            session = session.With(session.Trials.Count == 0 ? trial with { Twin = twin } : trial);
        }

        double best = knob.Share(NextSetting.Of(session).Best!.Setting);
        return (1 - Math.Exp(Curve(best)), session.Trials.Count);
    }

    private static double Miss(Random random)
    {
        double top = random.NextDouble();
        double width = 0.3 + (0.7 * random.NextDouble());
        double slope = 0.3 * (random.NextDouble() - 0.5);
        double Delivered(double share) => 1e-4 * Math.Exp((-0.5 * Math.Pow((share - top) / width, 2)) + (slope * share));
        TuningSession session = Run(Delivered, _ => 3e5, random, null, random.NextDouble());
        Trial best = NextSetting.Of(session).Best!;
        double most = Enumerable.Range(0, 1001).Max(i => Delivered(i / 1000.0));
        return 1 - (Delivered(Trials.Stroke.Share(best.Setting)) / most);
    }

    private static TuningSession Run(
        Func<double, double> delivered, Func<double, double> peak, Random random, double? allowablePa, double startShare, TuningSession? start = null)
    {
        TuningSession session = start ?? Trials.Empty();
        Knob knob = session.Knob;
        double now = knob.Lowest + (startShare * knob.Span);
        while (NextSetting.Of(session, now).Setting is { } setting)
        {
            double share = knob.Share(setting);
            session = session.With(Trials.Of(setting, delivered(share), 0.5, peak(share), random, 0.015, allowablePa));
        }

        Assert.InRange(session.Trials.Count, 1, TuningSession.MostTrials);
        return session;
    }
}
