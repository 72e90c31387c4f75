using Clackbeat.Hydraulics.Fatigue;

namespace Clackbeat.Checks.Fatigue;

public class RainflowChecks
{
    private static readonly double[] Series = [-2, 1, -3, 5, -1, 3, -4, 4, -2];

    // ASTM E1049-85(2011) §5.4.4, Fig. 6; counts by range as quoted in github.com/iamlikeme/rainflow issue 4. Means from memory.
    [Theory(DisplayName = "The series of ASTM E1049: ranges 3, 4, 6, 8, 9 counted 0.5, 1.5, 0.5, 1.0, 0.5")]
    [InlineData(RainflowConvention.AstmThreePoint)]
    [InlineData(RainflowConvention.FourPoint)]
    public void E1049(RainflowConvention convention)
    {
        var cycles = new List<RainflowCycle>();
        var counter = new RainflowCounter(cycles.Add, convention: convention);
        counter.Add(Series);
        counter.Finish();
        IEnumerable<(double Key, double)> byRange = cycles.GroupBy(c => c.Range).OrderBy(g => g.Key).Select(g => (g.Key, g.Sum(c => c.Count)));
        Assert.Equal([(3, 0.5), (4, 1.5), (6, 0.5), (8, 1.0), (9, 0.5)], byRange);
        IEnumerable<(double Range, double Mean, double)> pairs = cycles.GroupBy(c => (c.Range, c.Mean)).OrderBy(g => g.Key).Select(g => (g.Key.Range, g.Key.Mean, g.Sum(c => c.Count)));
        Assert.Equal(
            [(3, -0.5, 0.5), (4, -1, 0.5), (4, 1, 1.0), (6, 1, 0.5), (8, 0, 0.5), (8, 1, 0.5), (9, 0.5, 0.5)], pairs);
        Assert.Equal(4.0, cycles.Sum(c => c.Count), 1e-12);
        Assert.Equal(23.0, cycles.Sum(c => c.Range * c.Count), 1e-12);
    }

    // M. A. Miner 1945: failure at a sum of 1; tests scatter from 0.7 to 2.2 (fxsolver.com).
    [Fact(DisplayName = "Miner: half the life at one load and half at another are a whole life")]
    public void Miners()
    {
        RainflowCycle[] cycles = [new(1, 0, 500), new(2, 0, 50)];
        Assert.Equal(1.0, Miner.Damage(cycles, c => c.Range > 1 ? 100 : 1000), 1e-12);
        Assert.Equal((0.7, 2.2), (Miner.SumAtFailure.Low, Miner.SumAtFailure.High));
    }
}
