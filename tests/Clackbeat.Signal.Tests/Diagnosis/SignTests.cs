using System.Globalization;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.Signal.Tests.Diagnosis;

/// <summary>The parts of the diagnosis, each against something known beforehand.</summary>
public class SignTests
{
    [Theory]
    [InlineData(0.024)]
    [InlineData(0.0545)]
    [InlineData(0.130)]
    public void Echoes_put_into_a_beat_are_found_at_their_period(double periodS)
    {
        // Jolts of one kilopascal at whole multiples of the period on a slow rise, and noise of fifty pascals.
        var random = new Random(1);
        double[] times = [.. Enumerable.Range(0, 2200).Select(i => (i - 200) * 0.0005)];
        double[] pressures = [.. times.Select(t =>
        {
            double since = t > 0 ? t - (Math.Round(t / periodS) * periodS) : 1;
            return (5000 * t) + (since is > -0.001 and < 0.001 && t > 0.5 * periodS ? -1000 : 0) + (100 * (random.NextDouble() - 0.5));
        })];
        (double found, _, _) = EchoFinder.Find(new TraceCurve(times, pressures), 0.022, 1)!.Value;
        Assert.InRange(found, 0.98 * periodS, 1.02 * periodS);
    }

    [Fact]
    public void Quantiles_of_a_stream_are_those_of_the_sorted_numbers()
    {
        var random = new Random(4);
        double[] values = [.. Enumerable.Range(0, 9999).Select(_ => Math.Exp(6 * random.NextDouble()))];
        var tracker = new QuantileTracker();
        foreach (double value in values)
        {
            tracker.Add(value);
        }

        Array.Sort(values);
        Assert.InRange(tracker.Quantile(0.5), 0.99 * values[5000], 1.01 * values[5000]);
        Assert.InRange(tracker.Quantile(0.2), 0.98 * values[2000], 1.02 * values[2000]);
    }

    [Fact]
    public void The_typical_beat_is_the_median_of_the_beats_at_each_instant()
    {
        TraceCurve[] beats = [.. new[] { 1.0, 2, 30 }.Select(level => new TraceCurve(
            [.. Enumerable.Range(0, 120).Select(i => (i - 20) * 0.01)], [.. Enumerable.Repeat(level, 120)]))];
        TraceCurve typical = TypicalBeat.Of(beats, 0.9);
        Assert.All(typical.PressurePa, p => Assert.Equal(2, p, 9));
        Assert.InRange(typical.TimeS[^1], 0.88, 0.91);
    }

    [Fact]
    public void Every_sign_has_words_and_every_condition_has_advice_with_its_caution()
    {
        Assert.All(Enum.GetValues<Sign>(), s => Assert.NotEmpty(SignText.Of(s).Sentence(0.1, "than before")));
        Assert.All(
            Conditions.Beating.Append(Conditions.StoppedShut).Append(Conditions.StoppedOpen).Append(Conditions.SensorFault).Where(c => c != Conditions.Healthy),
            c => Assert.Contains("pressure", ConditionText.Of(c).Advice, StringComparison.Ordinal));
    }

    [Fact]
    public void No_change_speaks_for_a_well_ram()
    {
        Dictionary<Sign, double> none = Enum.GetValues<Sign>().ToDictionary(s => s, _ => 0.0);
        double calm = Healthy(none);
        foreach (Sign sign in Enum.GetValues<Sign>())
        {
            foreach (double change in new[] { -0.2, -0.02, 0.02, 0.2 })
            {
                Assert.True(Healthy(new Dictionary<Sign, double>(none) { [sign] = change }) <= calm + 1e-12, sign.ToString());
            }
        }
    }

    [Fact]
    public void Sentences_say_how_much_in_plain_numbers()
    {
        // ln 1.10 is ten per cent more; 0.05 of the jump is five per cent of it.
        Assert.Contains("10 % more", SignText.Of(Sign.Interval).Sentence(Math.Log(1.1), "than before"), StringComparison.Ordinal);
        Assert.Contains("5 %", SignText.Of(Sign.Slope).Sentence(0.05, "than before"), StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", string.Create(CultureInfo.InvariantCulture, $"{SignText.Of(Sign.Echo).Sentence(-5, "")}"), StringComparison.Ordinal);
    }

    private static double Healthy(Dictionary<Sign, double> signs) =>
        ConditionModel.AgainstBaseline.Judge(signs).Single(c => c.Condition == Conditions.Healthy).Probability;
}
