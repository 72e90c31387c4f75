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

    [Fact]
    public void A_tree_read_back_answers_and_credits_as_it_did()
    {
        // By hand: an echo three scatters low takes the second branch, then a knock half a scatter low the first.
        int echo = SignTree.Column(Sign.Echo, rise: false);
        int knock = SignTree.Column(Sign.Spike, rise: false);
        var tree = SignTree.Read(new SignTree(
            [new(echo, 2, 0.1), new(-1, 0, -0.3), new(knock, 1, 0.8), default, default, new(-1, 0, 0.5), new(-1, 0, 1.2)]).Write());
        double[] columns = SignTree.Columns(new Dictionary<Sign, double> { [Sign.Echo] = -3, [Sign.Spike] = -0.5 });
        var credits = new double[SignTree.ColumnCount];
        tree.Credit(columns, credits);
        Assert.Equal(0.5, tree.Answer(columns), 9);
        Assert.Equal(0.7, credits[echo], 9);
        Assert.Equal(-0.3, credits[knock], 9);
    }

    [Fact]
    public void What_speaks_for_a_fault_adds_up_with_its_sign_of_the_other_side_left_out()
    {
        var change = new Dictionary<Sign, double> { [Sign.Echo] = -0.4, [Sign.WaveSpeed] = -0.4, [Sign.Plateau] = 0.001 };
        SignReading reading = ConditionModel.AgainstBaseline.Read(change, SameRecording);
        SignReason[] reasons = [.. ConditionModel.AgainstBaseline.Reasons(Conditions.AirInDrivePipe, reading)];
        Assert.Contains(reasons[0].Sign, change.Keys.Where(s => s != Sign.Plateau));
        Assert.True(reasons[0].Distance < 0);
    }

    [Theory]
    [InlineData(0.06, 0)]
    [InlineData(-0.08, 0.02)]
    public void Flow_past_shut_valves_and_the_bodys_give_are_found_in_a_fall_made_of_them(double flow, double give)
    {
        // A fall that starts slowly and ends quickly; its slope in jumps a period is known at each instant, and so is the velocity.
        const double PeriodS = 0.05;
        const double FallPeriods = 0.25;
        double[] times = [.. Enumerable.Range(0, 300).Select(i => i * 0.0005)];
        double since(double t) => Math.Clamp((t - 0.05) / (FallPeriods * PeriodS), 0, 1);
        double[] share = [.. times.Select(t => 1 - Math.Pow(since(t), 3))];
        double[] velocity = [.. times.Select(t => flow - (give * 3 * Math.Pow(since(t), 2) / FallPeriods))];
        Dictionary<Sign, double> found = new ShutValves(times, share, velocity, PeriodS)
            .Measure(times[Array.FindIndex(share, s => s < 0.5)]).ToDictionary(s => s.Sign, s => s.Value);
        Assert.InRange(found[Sign.ShutFlow], flow - 0.015, flow + 0.015);
        Assert.InRange(found[Sign.BodyGive], 0.6 * give, give + 1e-9);
    }

    [Fact]
    public void How_far_a_fault_has_gone_is_the_constant_and_the_weighted_roots()
    {
        // By hand: 0.3 + 0.1 √4 − 0.05 √9 = 0.35.
        var stage = new Stage(new Dictionary<string, StageWeights> { ["leak"] = new(0.3, [0.1, -0.05, 7]) });
        Assert.Equal(0.35, stage.Of("leak", [4, 9, 0]), 9);
    }

    [Fact]
    public void What_grows_from_record_to_record_is_said_to_grow_and_what_stood_is_not()
    {
        Signature well = With(0);
        SignReason now = new(Sign.Interval, 0.1, 10, 1);
        string grown = new Growth(With(0.1), well, [new("march", With(0.02)), new("june", With(0.05))]).Sentence(now)!;
        Assert.StartsWith("It has grown: 2 % in march, 5.1 % in june", grown, StringComparison.Ordinal);
        Assert.StartsWith("It is not growing", new Growth(With(0.1), well, [new("march", With(0.1))]).Sentence(now), StringComparison.Ordinal);
        Assert.Null(new Growth(With(0.1), well, []).Sentence(now));
    }

    private static Signature With(double interval) => new()
    {
        Signs = new Dictionary<Sign, double> { [Sign.Interval] = interval },
        Circumstances = SameRecording,
        Typical = new TraceCurve([], []),
        DeliveryEndS = 0.1,
        OpenPa = 0,
        DeliveryPa = 1e5,
        IntervalS = 1,
    };

    private static readonly Dictionary<Circumstance, double> SameRecording = Enum.GetValues<Circumstance>().ToDictionary(c => c, _ => 0.0);

    private static double Healthy(Dictionary<Sign, double> signs) =>
        ConditionModel.AgainstBaseline.Judge(ConditionModel.AgainstBaseline.Read(signs, SameRecording)).Single(c => c.Condition == Conditions.Healthy).Probability;
}
