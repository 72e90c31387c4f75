using Clackbeat.Hydraulics.Fatigue;
using CsCheck;

namespace Clackbeat.Hydraulics.Tests.Fatigue;

public class CurveTests
{
    private const double PsiPa = 6894.757293168;

    [Fact]
    public void Utah_State_s_life_satisfies_the_printed_equation() =>
        Gen.Select(Gen.Double[0, 5600], Gen.Double[213, 3000]).Sample((mean, amplitude) =>
        {
            double logN = Math.Log10(PvcCurves.UtahState(mean * PsiPa * 0.999999, amplitude * PsiPa));
            // Eq. 4.19, Moser and Folkman.
            Assert.Equal(amplitude, mean * (0.01637 * logN - 0.1697) + 15362 / logN - 1782, 0.05);
        });

    [Fact]
    public void A_wider_swing_never_lasts_longer_by_any_curve() =>
        Gen.Select(Gen.Double[0.02e6, 30e6], Gen.Double[1.0001, 3], Gen.Double[0, 20e6]).Sample((narrow, times, mean) =>
        {
            double wide = narrow * times;
            Assert.True(PvcCurves.Folkman(wide) < PvcCurves.Folkman(narrow));
            Assert.True(PvcCurves.Bowman(wide) < PvcCurves.Bowman(narrow));
            Assert.True(PvcCurves.Vinson(wide) < PvcCurves.Vinson(narrow));
            Assert.True(PvcCurves.UtahState(mean, wide) < PvcCurves.UtahState(mean, narrow));
            Assert.True(SteelCurve.Cycles(wide, 50e6) <= SteelCurve.Cycles(narrow, 50e6));
        });

    [Fact]
    public void Utah_State_has_no_step_where_its_tests_end()
    {
        double at = PvcCurves.SmallestTestedAmplitudePa;
        Assert.Equal(1, PvcCurves.UtahState(5e6, at * 0.99999) / PvcCurves.UtahState(5e6, at * 1.00001), 1e-3);
    }

    [Fact]
    public void A_mean_beyond_the_fitted_range_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => PvcCurves.UtahState(5601 * PsiPa, PsiPa * 300));
}
