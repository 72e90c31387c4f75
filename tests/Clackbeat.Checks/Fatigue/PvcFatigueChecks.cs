using Clackbeat.Hydraulics.Fatigue;
using static Clackbeat.Checks.Units;

namespace Clackbeat.Checks.Fatigue;

public class PvcFatigueChecks
{
    // Moser and Folkman, Buried Pipe Design, pp. 211-221: pressures [psi], mean and amplitude of the hoop stress [psi], cycles
    // by Vinson and Bowman as printed (Bowman rounded to two or three digits there), Eq. 4.19 by an independent script.
    // Test One is DR 18, the others wall-reduced pipe of about DR 40: the printed stresses are used, not the ratio.
    [Theory(DisplayName = "Utah State University fatigue tests One to Four (Moser and Folkman)")]
    [InlineData(1787, 213, 322_432, 7.714e6, 2.38e7)]
    [InlineData(2000, 400, 131_818, 934_200, 4.68e6)]
    [InlineData(1500, 1500, 44_110, 11_150, 3.04e4)]
    [InlineData(2000, 900, 52_091, 61_750, 2.51e5)]
    public void Tests(double meanPsi, double amplitudePsi, double vinson, double bowman, double utah)
    {
        Approximately.Equal(vinson, PvcCurves.Vinson((meanPsi + amplitudePsi) * PsiPa), 1e-4);
        Approximately.Equal(bowman, PvcCurves.Bowman(2 * amplitudePsi * PsiPa), 2e-3);
        Approximately.Equal(utah, PvcCurves.UtahState(meanPsi * PsiPa, amplitudePsi * PsiPa), 5e-3);
    }

    // The same tests' pressures: (185, 235) psi at DR 18; (82, 123), (0, 154), (56.5, 149) psi at about DR 40.
    [Theory(DisplayName = "Hoop stresses of the four tests")]
    [InlineData(185, 235, 18, 1787, 213)]
    [InlineData(82, 123, 40, 2000, 400)]
    [InlineData(0, 154, 40, 1500, 1500)]
    [InlineData(56.5, 149, 40, 2000, 900)]
    public void HoopStress(double low, double high, double ratio, double mean, double amplitude)
    {
        Approximately.Equal(mean, PvcCurves.HoopStressPa((low + high) / 2, ratio), 0.005);
        Approximately.Equal(amplitude, PvcCurves.HoopStressPa((high - low) / 2, ratio), 0.005);
    }

    // Pieces failed after at least 3,292,576 (Two), 36,300 (Three), 262,000 (Four) cycles; none of One in 10,209,535.
    [Theory(DisplayName = "No test piece failed far sooner than Eq. 4.19 says")]
    [InlineData(1787, 213, 10_209_535)]
    [InlineData(2000, 400, 3_292_576)]
    [InlineData(1500, 1500, 36_300)]
    [InlineData(2000, 900, 262_000)]
    public void AgainstTheTests(double meanPsi, double amplitudePsi, double seen)
    {
        double utah = PvcCurves.UtahState(meanPsi * PsiPa, amplitudePsi * PsiPa);
        Assert.InRange(seen / utah, 0.4, 1.3);
    }

    // Moser and Folkman Example 4.2, p. 221: DR 18, 190 and 130 psi, mean 1360 (strictly 1360), amplitude 255; life about 2e7
    // from Fig. 4.18, 1.98e7 by Eq. 4.19. Demand 55 cycles a day for 50 years, twice: 2.0e6, so it passes.
    [Fact(DisplayName = "Example 4.2: 2e7 cycles against 2e6 asked for (Moser and Folkman)")]
    public void Example()
    {
        double mean = PvcCurves.HoopStressPa(160, 18);
        double amplitude = PvcCurves.HoopStressPa(30, 18);
        Assert.Equal(1360, mean, 0.5);
        Assert.Equal(255, amplitude, 0.5);
        double life = PvcCurves.UtahState(mean * PsiPa, amplitude * PsiPa);
        Approximately.Equal(1.98e7, life, 5e-3);
        Assert.True(life > 2 * 55 * 365 * 50);
    }

    // Uni-Bell guide (issuu s/18443943): DR 41, 82 to 123 psi gives 6.9 million. By hand 6.95e6 at 400 psi of amplitude and
    // 6.26e6 at the 410 that DR 41 gives. Samples in the laboratory reached 11 million cycles.
    [Fact(DisplayName = "Folkman 2020: DR 41 between 82 and 123 psi lasts 6.9 million cycles (Uni-Bell)")]
    public void Folkman()
    {
        Approximately.Equal(6.9e6, PvcCurves.Folkman(400 * PsiPa), 0.01);
        Approximately.Equal(6.26e6, PvcCurves.Folkman(PvcCurves.HoopStressPa(20.5, 41) * PsiPa), 0.01);
        Assert.Equal(11e6, PvcCurves.TestedCycles);
    }
}
