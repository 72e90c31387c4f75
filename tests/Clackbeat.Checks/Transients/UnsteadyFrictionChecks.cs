using Clackbeat.Hydraulics.Transients;

namespace Clackbeat.Checks.Transients;

public class UnsteadyFrictionChecks
{
    // Worked by hand from 7.41/Re^κ, κ = log10(14.3/Re^0.05) (Vardy and Brown): Re = 1e5: κ = 0.90534, C* = 2.204e-4,
    // k = 0.00742; Re = 5600 (the laboratory case of Bergant, Simpson and Vítkovský 2001): κ = 0.96792, C* = 1.744e-3, k = 0.0209.
    [Theory(DisplayName = "Vardy and Brown's shear decay")]
    [InlineData(1e5, 2.204e-4, 0.00742)]
    [InlineData(5600, 1.744e-3, 0.0209)]
    [InlineData(1000, 0.00476, 0.0345)]
    public void ShearDecay(double reynolds, double decay, double coefficient)
    {
        Approximately.Equal(decay, UnsteadyFriction.ShearDecay(reynolds), 0.003);
        Approximately.Equal(coefficient, UnsteadyFriction.Coefficient(reynolds), 0.003);
    }

    [Fact(DisplayName = "The transition to turbulence has no step")]
    public void Transition()
    {
        foreach (double end in new[] { 2000.0, 4000 })
        {
            Approximately.Equal(UnsteadyFriction.ShearDecay(end * 0.999999), UnsteadyFriction.ShearDecay(end * 1.000001), 1e-4);
        }
    }
}
