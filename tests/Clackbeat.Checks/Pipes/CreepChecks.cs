using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Transients;

namespace Clackbeat.Checks.Pipes;

public class CreepChecks
{
    // Covas et al. 2004-05, PE100: J0 0.70, J 0.106 0.105 0.091 0.262 0.746 1/GPa at 0.05, 0.5, 1.5, 5, 10 s. By hand after 0.1 s:
    // 0.106·0.86466 + 0.105·0.18127 + 0.091·0.06449 + 0.262·0.01980 + 0.746·0.00995 = 0.12917, over 0.70: 0.1845.
    // After 5 ms: 0.106·0.09516 + 0.105·0.00995 + 0.091·0.00333 + 0.262·0.001 + 0.746·0.0005 = 0.01207, over 0.70: 0.0172.
    [Theory(DisplayName = "PE100 gives 1.7 % more after 5 ms, 18.5 % after 0.1 s, 187 % in the end")]
    [InlineData(0.005, 0.0172)]
    [InlineData(0.1, 0.1845)]
    [InlineData(1e6, 1.8714)]
    public void Polyethylene(double timeS, double share) =>
        Approximately.Equal(share, WallCreep.TryGet(PipeMaterial.Pe100)!.ShareAfter(timeS), 0.003);

    // Handbook of PE Pipe: 1.32 at 50 °F against 1 at 73 °F; the figures stand at 20 °C, by a straight line 1.073 there.
    [Fact(DisplayName = "PE at 10 °C is 1.23 times as stiff as at 20 °C, its shares the same")]
    public void Cold()
    {
        WallCreep warm = WallCreep.TryGet(PipeMaterial.Pe100)!;
        WallCreep cold = warm.At(10);
        Approximately.Equal(1.23, warm.PromptPerPa / cold.PromptPerPa, 0.005);
        Assert.Equal(warm.ShareAfter(0.1), cold.ShareAfter(0.1), 12);
    }

    [Fact(DisplayName = "PVC creeps a few per cent within a beat, PE several times as much, metal not at all")]
    public void Others()
    {
        Assert.InRange(WallCreep.TryGet(PipeMaterial.PvcU)!.ShareAfter(0.1), 0.02, 0.08);
        Assert.True(WallCreep.TryGet(PipeMaterial.Pe80)!.ShareAfter(0.1) > 0.15);
        Assert.Null(WallCreep.TryGet(PipeMaterial.GalvanisedSteel));
        Assert.Null(WallCreep.TryGet(PipeMaterial.Other));
    }

    // Korteweg: 1/a² = 1/c² + (wall), so 400 m/s in water of 1450 m/s leaves the wall 1 − 0.0761 = 0.9239 of the give.
    [Fact(DisplayName = "A pipe of 400 m/s owes 92 % of its give to its wall")]
    public void WallPart() => Approximately.Equal(0.9239, WallCreep.WallPart(400, 1450), 1e-4);

    // Mass oscillation, 2π √(L A_s/(g A)): 26.4 m of 61 mm against 143 mm: ratio 5.4955, 2π √(14.794) = 24.167 s.
    [Fact(DisplayName = "A 143 mm stand pipe on 26.4 m of 61 mm feed swings once in 24.2 s")]
    public void StandPipe() => Approximately.Equal(
        24.167, MassOscillation.PeriodS(26.4, Math.PI / 4 * 0.061 * 0.061, Math.PI / 4 * 0.143 * 0.143), 1e-3);
}
