namespace Clackbeat.Hydraulics.Fatigue;

/// <summary>
/// Palmgren and Miner's rule: each cycle takes 1/N of the life, failure is due at a sum of 1 (M. A. Miner, J. Appl. Mech. 12
/// (1945) A159). Sums at failure in tests scatter from about 0.7 to 2.2.
/// </summary>
public static class Miner
{
    /// <summary>Sums at which test pieces failed.</summary>
    public static Band SumAtFailure { get; } = new(0.7, 2.2);

    /// <summary>Damage of some cycles.</summary>
    /// <param name="cycles">The cycles.</param>
    /// <param name="cyclesToFailure">N of a cycle; positive infinity for one that does no harm.</param>
    public static double Damage(IEnumerable<RainflowCycle> cycles, Func<RainflowCycle, double> cyclesToFailure) =>
        cycles.Sum(cycle => cycle.Count / cyclesToFailure(cycle));
}
