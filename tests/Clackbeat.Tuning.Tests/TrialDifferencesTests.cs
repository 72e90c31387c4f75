using Clackbeat.Tuning.Search;

namespace Clackbeat.Tuning.Tests;

public class TrialDifferencesTests
{
    /// <summary>The step-down worked through by hand: 4 × 0.005, 3 × 0.01, 2 × 0.03, and 0.04 lifted to the one before it.</summary>
    [Fact]
    public void Chances_are_corrected_as_Holm_does() =>
        Assert.Equal([0.03, 0.06, 0.06, 0.02], Holm.Adjust([0.01, 0.04, 0.03, 0.005]).Select(p => Math.Round(p, 12)));

    [Fact]
    public void Trials_of_one_setting_are_rarely_called_different()
    {
        var random = new Random(5);
        int alarms = Enumerable.Range(0, 400).Count(_ =>
            TrialDifferences.Of(Trials.Session([1, 1, 1, 1], random)).Any(p => p.Differ));

        // Five in a hundred are stated; 400 sessions tell that to within about two.
        Assert.InRange(alarms / 400.0, 0, 0.075);
    }

    [Fact]
    public void A_trial_that_delivers_a_tenth_more_is_told_from_the_others()
    {
        var random = new Random(6);
        int told = Enumerable.Range(0, 100).Count(_ =>
        {
            IReadOnlyList<TrialPair> pairs = TrialDifferences.Of(Trials.Session([1, 1.1, 1], random));
            return pairs.Single(p => p is { First: 0, Second: 1 }).Differ;
        });

        Assert.InRange(told, 90, 100);
    }

    [Fact]
    public void Without_a_repeat_nothing_is_said() =>
        Assert.Empty(TrialDifferences.Of(Trials.Session([1, 1.2], new Random(1), stretches: 1)));
}
