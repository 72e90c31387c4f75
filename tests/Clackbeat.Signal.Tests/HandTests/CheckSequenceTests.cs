using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.HandTests;

namespace Clackbeat.Signal.Tests.HandTests;

public sealed class CheckSequenceTests
{
    [Theory]
    [InlineData(Conditions.Healthy, Conditions.DeliveryValveLeaking, "shut")]
    [InlineData(Conditions.WasteValveLeaking, Conditions.DeliveryValveLeaking, "shut")]
    [InlineData(Conditions.DeliveryMainLeaking, Conditions.DeliveryValveLeaking, "shut")]
    [InlineData(Conditions.SupplyStarved, Conditions.AirInDrivePipe, "intake")]
    [InlineData(Conditions.Healthy, Conditions.DeliveryMainLeaking, "bucket")]
    [InlineData(Conditions.Healthy, Conditions.AirVesselWaterlogged, "vent")]
    public void The_cheapest_test_that_tells_the_two_apart_is_proposed(string one, string other, string test) =>
        Assert.Equal(test, Of((one, 0.5), (other, 0.4)).Next?.Code);

    [Fact]
    public void Where_the_first_stands_clear_nothing_is_proposed_but_a_leaking_delivery_valve_is_always_tested()
    {
        Assert.True(Of((Conditions.SupplyStarved, 0.9), (Conditions.AirInDrivePipe, 0.2)).IsDecided);
        Assert.Null(Of((Conditions.SupplyStarved, 0.9), (Conditions.AirInDrivePipe, 0.2)).Next);
        Assert.Equal("shut", Of((Conditions.DeliveryValveLeaking, 0.9)).Next?.Code);
    }

    [Fact]
    public void Bayes_rule_with_the_counts_of_the_study_moves_the_probabilities()
    {
        CheckSequence before = Of((Conditions.Healthy, 0.6), (Conditions.WasteValveLeaking, 0.3));
        CheckSequence after = before.After(new CheckStep("shut", "waste-valve-leaks"));

        // By hand: 2 to 1 before, times the likelihoods.
        double odds = 2 * TestLikelihoods.Of("shut", Conditions.Healthy, "waste-valve-leaks") / TestLikelihoods.Of("shut", Conditions.WasteValveLeaking, "waste-valve-leaks");
        Assert.Equal(odds, Probability(after, Conditions.Healthy) / Probability(after, Conditions.WasteValveLeaking), 9);
        Assert.Equal(1, after.Causes.Sum(c => c.Probability), 9);
        Assert.True(after.IsDecided);
        Assert.Equal(Conditions.WasteValveLeaking, after.Causes[0].Condition);
    }

    [Fact]
    public void A_test_that_was_made_is_not_proposed_again_nor_counted_twice_and_an_unclear_one_changes_nothing()
    {
        CheckSequence begun = Of((Conditions.Healthy, 0.5), (Conditions.DeliveryValveLeaking, 0.45));
        CheckSequence once = begun.After(new CheckStep("shut", "both-hold"));
        Assert.NotEqual("shut", once.Next?.Code);
        Assert.Equal(once.Causes, once.After(new CheckStep("shut", "both-hold")).Causes);
        Assert.Equal(begun.Causes, begun.After(new CheckStep("shut", HandReading.Unclear)).Causes);
    }

    // 2 of 22 leaking mains and 15 of 23 leaking valves were named as the valve (docs/diagnosis.md): 0.139 to 1.
    [Fact]
    public void Beside_a_leaking_delivery_valve_stands_a_leaking_main()
    {
        CheckSequence begun = Of((Conditions.DeliveryValveLeaking, 0.5));
        Assert.Equal(0.139, Probability(begun, Conditions.DeliveryMainLeaking) / Probability(begun, Conditions.DeliveryValveLeaking), 3);
        Assert.Equal(Conditions.DeliveryMainLeaking, begun.After(new CheckStep("shut", "both-hold")).Causes[0].Condition);
    }

    [Fact]
    public void A_ram_that_stands_still_and_a_sensor_that_lies_begin_nothing()
    {
        Assert.Null(CheckSequence.Begin([new CauseOdds(Conditions.StoppedShut, 0.9), new CauseOdds(Conditions.WasteValveLeaking, 0.3)]));
        Assert.Null(CheckSequence.Begin([new CauseOdds(Conditions.SensorFault, 0.9)]));
        Assert.Null(CheckSequence.Begin(Array.Empty<CauseOdds>()));
    }

    [Fact]
    public void Every_likelihood_is_a_probability_of_a_test_and_a_condition_that_are_known()
    {
        Assert.All(HandTest.All, test => Assert.All(Conditions.Beating, c => Assert.InRange(TestLikelihoods.Of(test.Code, c, "as-before"), 0, 1)));
        Assert.True(TestLikelihoods.Of("shut", Conditions.DeliveryValveLeaking, "delivery-valve-leaks") > 0.9);
    }

    private static double Probability(CheckSequence of, string condition) => of.Causes.Single(c => c.Condition == condition).Probability;

    private static CheckSequence Of(params (string Condition, double Probability)[] found) => CheckSequence.Begin([.. found.Select(f => new CauseOdds(f.Condition, f.Probability))])!;
}
