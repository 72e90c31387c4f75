using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.States;
using Clackbeat.Site.Facts;
using Clackbeat.Words;

namespace Clackbeat.Signal.Tests.Diagnosis;

/// <summary>The parts of the diagnosis, each against something known beforehand.</summary>
public class FeatureTests
{
    [Theory]
    [InlineData(0.024)]
    [InlineData(0.0545)]
    [InlineData(0.130)]
    public void Echoes_put_into_a_beat_are_found_at_their_period(double periodS)
    {
        // Steps of one kilopascal at whole multiples of the period on a slow rise, and noise of fifty pascals.
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

    [Theory]
    [InlineData(0.004, 0.0005)]
    [InlineData(0.020, 0.002)]
    public void A_straight_rise_takes_its_share_of_its_length(double lengthS, double stepS)
    {
        // A rise by one jump within a length: from 0.15 to 0.6 of it in 0.45 of that length, wherever the samples fall.
        double[] times = [.. Enumerable.Range(0, 400).Select(i => (i - 100.3) * stepS)];
        var beat = new CurveReader(
            new TraceCurve(times, [.. times.Select(t => 1000 * Math.Clamp((t / lengthS) + 1, 0, 1))]), new BeatScale(0, 1000, 0.03, 1));
        Assert.Equal(0.45 * lengthS, beat.Rise(0.15, 0.6, -1, 0.5)!.Value, 1e-9);
        Assert.Null(beat.Rise(0.15, 1.1, -1, 0.5));
    }

    [Fact]
    public void No_change_speaks_for_a_well_ram()
    {
        Dictionary<Feature, double> none = Enum.GetValues<Feature>().ToDictionary(s => s, _ => 0.0);
        double calm = Healthy(none);
        foreach (Feature feature in Enum.GetValues<Feature>())
        {
            foreach (double change in new[] { -0.2, -0.02, 0.02, 0.2 })
            {
                Assert.True(Healthy(new Dictionary<Feature, double>(none) { [feature] = change }) <= calm + 1e-12, feature.ToString());
            }
        }
    }

    [Fact]
    public void A_well_ram_is_never_likelier_than_that_the_likeliest_fault_is_not_there()
    {
        // P(no fault) ≤ 1 − P(any one of them), for events that may go together: Kolmogorov's axioms.
        IReadOnlyList<(string Condition, double Probability)> judged = ConditionModel.WithoutFault(
            [(Conditions.Healthy, 0.7), (Conditions.DeliveryValveLeaking, 0.6), (Conditions.AirInDrivePipe, 0.2)]);
        Assert.Equal([Conditions.DeliveryValveLeaking, Conditions.Healthy, Conditions.AirInDrivePipe], judged.Select(j => j.Condition));
        Assert.Equal(0.4, judged[1].Probability, 9);
    }

    [Fact]
    public void A_tree_read_back_answers_and_attributes_as_it_did()
    {
        // By hand: an echo three standard deviations low takes the second branch, then a knock half of one low the first.
        int echo = FeatureTree.Column(Feature.Echo, rise: false);
        int knock = FeatureTree.Column(Feature.Spike, rise: false);
        var tree = FeatureTree.Read(new FeatureTree(
            [new(echo, 2, 0.1), new(-1, 0, -0.3), new(knock, 1, 0.8), default, default, new(-1, 0, 0.5), new(-1, 0, 1.2)]).Write());
        double[] columns = FeatureTree.Columns(new Dictionary<Feature, double> { [Feature.Echo] = -3, [Feature.Spike] = -0.5 });
        double[] attributions = new double[FeatureTree.ColumnCount];
        tree.AddAttributions(columns, attributions);
        Assert.Equal(0.5, tree.Answer(columns), 9);
        Assert.Equal(0.7, attributions[echo], 9);
        Assert.Equal(-0.3, attributions[knock], 9);
    }

    [Fact]
    public void What_speaks_for_a_fault_adds_up_with_its_features_of_the_other_side_left_out()
    {
        var change = new Dictionary<Feature, double> { [Feature.Echo] = -0.4, [Feature.WaveSpeed] = -0.4, [Feature.Plateau] = 0.001 };
        FeatureScores scores = ConditionModel.AgainstBaseline.Score(new Comparison(change, SameRecording, SameRecording));
        FeatureAttribution[] reasons = [.. ConditionModel.AgainstBaseline.Reasons(Conditions.AirInDrivePipe, scores)];
        Assert.Contains(reasons[0].Feature, change.Keys.Where(s => s != Feature.Plateau));
        Assert.True(reasons[0].ZScore < 0);
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
        var found = new ShutValves(times, share, velocity, PeriodS)
            .Measure(times[Array.FindIndex(share, s => s < 0.5)]).ToDictionary(s => s.Feature, s => s.Value);
        Assert.InRange(found[Feature.ShutFlow], flow - 0.015, flow + 0.015);
        Assert.InRange(found[Feature.BodyGive], 0.6 * give, give + 1e-9);
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
        FeatureAttribution now = new(Feature.Interval, 0.1, 10, 1);
        Fact grown = new Growth(With(0.1), well, [new("march", With(0.02)), new("june", With(0.05))]).Of(now)!;
        Assert.Equal("It has grown: 2 % in march, 5.1 % in june, 10.5 % now.", Catalogue.English.Say(grown));
        Assert.Equal("evidence-not-growing", new Growth(With(0.1), well, [new("march", With(0.1))]).Of(now)!.Code);
        Assert.Null(new Growth(With(0.1), well, []).Of(now));
    }

    private static Signature With(double interval) => new()
    {
        Features = new Dictionary<Feature, double> { [Feature.Interval] = interval },
        Covariates = SameRecording,
        Typical = new TraceCurve([], []),
        DeliveryEndS = 0.1,
        OpenPa = 0,
        DeliveryPa = 1e5,
        IntervalS = 1,
    };

    private static readonly Dictionary<Covariate, double> SameRecording = Enum.GetValues<Covariate>().ToDictionary(c => c, _ => 0.0);

    // The case for it by itself; what faults take from it is another matter.
    private static double Healthy(Dictionary<Feature, double> features) => ConditionModel.AgainstBaseline.Sum(
        Conditions.Healthy, ConditionModel.AgainstBaseline.Score(new Comparison(features, SameRecording, SameRecording)));
}
