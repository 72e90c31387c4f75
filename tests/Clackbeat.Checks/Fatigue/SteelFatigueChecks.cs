using Clackbeat.Hydraulics.Fatigue;

namespace Clackbeat.Checks.Fatigue;

public class SteelFatigueChecks
{
    // EN 1993-1-9:2005 §7.1: Δσ_C at 2e6, Δσ_D = 0.737 Δσ_C at 5e6, cut-off Δσ_L = 0.549 Δσ_D at 1e8 (from memory).
    [Theory(DisplayName = "Knees of the EN 1993-1-9 curves")]
    [InlineData(SteelCurve.ThreadCategoryPa)]
    [InlineData(SteelCurve.SeamCategoryPa)]
    [InlineData(SteelCurve.UninspectedSeamCategoryPa)]
    public void Knees(double category)
    {
        Approximately.Equal(2e6, SteelCurve.Cycles(category, category), 1e-9);
        Approximately.Equal(5e6, SteelCurve.Cycles(0.737 * category, category), 2e-3);
        Approximately.Equal(1e8, SteelCurve.Cycles(1.0001 * SteelCurve.CutOffPa(category), category), 2e-3);
        Approximately.Equal(0.737 * 0.549 * category, SteelCurve.CutOffPa(category), 1e-3);
        Assert.Equal(double.PositiveInfinity, SteelCurve.Cycles(0.999 * SteelCurve.CutOffPa(category), category));
    }
}
