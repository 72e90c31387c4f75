using Clackbeat.Hydraulics.Transients;

namespace Clackbeat.Checks.Transients;

public class SurgeChecks
{
    // Moser and Folkman, Example 4.2 step 3, p. 220: DR 18 PVC, a = 1311 ft/s, ΔV = 7 ft/s gives 122 psi with the book's
    // rounding of 0.43 psi/ft; hence 1.5 %.
    [Fact(DisplayName = "Joukowsky surge of 122 psi in DR 18 PVC (Moser and Folkman, Example 4.2)")]
    public void PvcExample() => Approximately.Equal(
        122, Surge.JoukowskyPa(998.2, 1311 * Units.FootM, 7 * Units.FootM) / Units.PsiPa, 0.015);

    // Textbook question, https://essaybureau.com/: K 2.1 GPa, E 2.6 GPa, D 0.3 m, e 20 mm, free speed 1450 m/s, 2.5 m/s
    // stopped over 100 m of pipe under 9 m static: 400.4 m/s, 102.0 m, 111.0 m in all, period 0.4995 s (g 9.81 there).
    [Fact(DisplayName = "Textbook PVC main: 400.4 m/s, rise 102 m, total 111 m, period 0.4995 s")]
    public void TextbookMain()
    {
        double a = WaveSpeed.Korteweg(2.1e9, 2.1e9 / (1450.0 * 1450), 0.3, 0.02, 2.6e9, 1);
        Approximately.Equal(400.4, a, 1e-4);
        Approximately.Equal(102.0, Surge.JoukowskyHeadM(a, 2.5), 1e-3);
        Approximately.Equal(111.0, 9 + Surge.JoukowskyHeadM(a, 2.5), 1e-3);
        Approximately.Equal(0.4995, Surge.PipePeriodS(100, a), 1e-3);
        Approximately.Equal(111.0, Surge.CeilingPa(9 * 9806.65, 1000, a, 2.5) / 9806.65, 1e-3);
    }

    // Sudden up to 2L/a (curioustab.com, and any text on water hammer); Michaud beyond, meeting it there (from memory).
    [Fact(DisplayName = "A closure within one pipe period is sudden; Michaud's rise joins on at 2L/a")]
    public void SuddenAndSlow()
    {
        const double a = 1200, length = 12, velocity = 1.5;
        double period = Surge.PipePeriodS(length, a);
        double sudden = Surge.JoukowskyPa(1000, a, velocity);
        Assert.Equal(sudden, Surge.ClosurePa(1000, a, length, velocity, period), 1e-6);
        Assert.Equal(sudden, Surge.ClosurePa(1000, a, length, velocity, 0), 1e-6);
        Approximately.Equal(sudden, Surge.ClosurePa(1000, a, length, velocity, period * 1.000001), 2e-6);
        Approximately.Equal(2 * 1000 * length * velocity / (3 * period), Surge.ClosurePa(1000, a, length, velocity, 3 * period), 1e-12);
    }

    // A plumbing rule in trade pages: Δp[psi] = 0.07 V[ft/s] L[ft] / t[s]; it is 2.6 times Michaud, on the safe side.
    [Fact(DisplayName = "The plumber's 0.07 V L / t is about 2.6 times Michaud")]
    public void PlumbersRule()
    {
        double michaudPsi = Surge.ClosurePa(998.2, 1200, 100 * Units.FootM, 5 * Units.FootM, 1) / Units.PsiPa;
        Approximately.Equal(2.6, 0.07 * 5 * 100 / 1 / michaudPsi, 0.02);
    }
}
