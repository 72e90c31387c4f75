using Clackbeat.Signal.Flow;

namespace Clackbeat.Signal.Tests.Flow;

/// <summary>The head over an open waste valve, beside the closed form of the cubic (Cardano, by the cosine of a third of an angle).</summary>
public class ValveLawTests
{
    [Theory]
    [InlineData(0.2, 0.5)]
    [InlineData(0.6, 1.05)]
    [InlineData(1.2, 0.4)]
    public void A_floating_valves_head_is_the_lower_root_of_its_cubic(double floating, double velocity)
    {
        const double k = 0.2;
        double y = floating * k * velocity * velocity;
        Assert.True(y < 4.0 / 27, "below the snap");

        // x (1 − x)² = y with x = 2/3 + t: t³ − t/3 + 2/27 − y = 0 has the roots 2/3 cos((arccos(27 y/2 − 1) − 2πn)/3).
        double angle = Math.Acos((13.5 * y) - 1);
        double root = Enumerable.Range(0, 3).Select(n => (2.0 / 3) + (2.0 / 3 * Math.Cos((angle - (2 * Math.PI * n)) / 3))).Min();

        Assert.Equal(root / floating, new ValveLaw(k, floating).At(velocity).HeadM, 1e-6);
    }

    [Fact]
    public void A_valve_at_its_stop_obeys_the_square()
    {
        (double head, double perVelocity, double perConstant, _) = new ValveLaw(0.3, 0).At(-1.5);

        Assert.Equal(-0.675, head, 1e-12);
        Assert.Equal(0.9, perVelocity, 1e-12);
        Assert.Equal(-2.25, perConstant, 1e-12);
    }

    [Theory]
    [InlineData(0.4)]
    [InlineData(1)]
    public void Its_slopes_are_those_of_small_moves(double velocity)
    {
        const double move = 1e-6;
        var law = new ValveLaw(0.2, 0.5);
        (double head, double perVelocity, double perConstant, double perFloating) = law.At(velocity);

        Assert.Equal((law.At(velocity + move).HeadM - head) / move, perVelocity, 1e-4);
        Assert.Equal(((law with { Constant = 0.2 + move }).At(velocity).HeadM - head) / move, perConstant, 1e-4);
        Assert.Equal(((law with { Floating = 0.5 + move }).At(velocity).HeadM - head) / move, perFloating, 1e-4);
    }
}
