using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Hydraulics.Pipes;

/// <summary>
/// Pipes in a row, from the intake to the ram. The flow is common to all, so inertia adds as L/A and wave time as L/a
/// (E. B. Wylie and V. L. Streeter, Fluid Transients in Systems, 1993, ch. 2 and 12). No single pipe has both and
/// the impedance at the ram too: choose the helper by what matters.
/// </summary>
public sealed class SeriesPipe
{
    private readonly PipeReach[] _reaches;

    /// <summary>Joins reaches.</summary>
    /// <param name="reaches">One or more, from the intake to the ram; lengths, bores and wave speeds above 0.</param>
    public SeriesPipe(IEnumerable<PipeReach> reaches)
    {
        _reaches = [.. reaches];
        ArgumentOutOfRangeException.ThrowIfZero(_reaches.Length, nameof(reaches));
        foreach (PipeReach reach in _reaches)
        {
            ArgumentOutOfRangeException.ThrowIfNegativeOrZero(reach.LengthM, nameof(reaches));
            ArgumentOutOfRangeException.ThrowIfNegativeOrZero(reach.BoreM, nameof(reaches));
            ArgumentOutOfRangeException.ThrowIfNegativeOrZero(reach.WaveSpeedMPerS, nameof(reaches));
        }
    }

    /// <summary>The reaches, from the intake to the ram.</summary>
    public IReadOnlyList<PipeReach> Reaches => _reaches;

    /// <summary>The reach at the ram: its area turns flow into the velocity at the body, its impedance makes the knock.</summary>
    public PipeReach AtRam => _reaches[^1];

    /// <summary>Σ L [m].</summary>
    public double LengthM => _reaches.Sum(r => r.LengthM);

    /// <summary>Σ L/A [1/m]: over g it is the column's inertia, head for a change of flow.</summary>
    public double InertiaPerM => _reaches.Sum(r => r.LengthM / r.AreaM2);

    /// <summary>Σ L/a [s]: time of a wave from end to end.</summary>
    public double WaveTimeS => _reaches.Sum(r => r.WaveTimeS);

    /// <summary>Σ 2L/a [s]: there and back.</summary>
    public double PipePeriodS => 2 * WaveTimeS;

    /// <summary>The wave speed of a pipe as long with the same wave time, L/Σ(L/a) [m/s].</summary>
    public double MeanWaveSpeedMPerS => LengthM / WaveTimeS;

    /// <summary>The length that a pipe of the bore at the ram needs to be as inert, A_ram Σ(L/A) [m].</summary>
    public double InertiaLengthM => AtRam.AreaM2 * InertiaPerM;

    /// <summary>
    /// Period at which the pipe rings with the body shut and the intake open [s]: 4L/a for one reach. For several, the root
    /// of the standing wave: the impedance seen from the body, carried from the intake reach by reach, grows without bound.
    /// </summary>
    /// <remarks>
    /// From the intake, where the head is fixed, a standing wave has h = sin-like and q = cos-like parts with
    /// tan φ' = (B/B') tan(φ) at each joint and φ + ω L/a along a reach; it rings where φ first reaches π/2.
    /// </remarks>
    public double RingPeriodS
    {
        get
        {
            // The phase at the body grows with ω from 0. No joint moves it across a multiple of π/2, so the first root lies
            // where no reach has taken more than a quarter turn.
            (double low, double high) = (0.0, Math.PI / 2 / _reaches.Max(r => r.WaveTimeS));
            for (int halving = 0; halving < 60; halving++)
            {
                double middle = (low + high) / 2;
                (low, high) = PhaseAtBody(middle) < Math.PI / 2 ? (middle, high) : (low, middle);
            }

            return 2 * Math.PI / low;
        }
    }

    /// <summary>Share of a pressure wave that a joint throws back, for a wave coming from the ram's side: (B_up − B_down)/(B_up + B_down).</summary>
    /// <param name="joint">Index of the joint, from the intake: 0 lies between the first two reaches.</param>
    public double ReflectionFromRam(int joint)
    {
        (double up, double down) = (_reaches[joint].ImpedanceSPerM2, _reaches[joint + 1].ImpedanceSPerM2);
        return (up - down) / (up + down);
    }

    /// <summary>
    /// Bound on how far echoes of joints can lift the knock of a flow stopped at the ram: a joint where the pipe widens (or softens)
    /// towards the ram throws a share r of the wave back with its sign, and the shut end doubles it, so Π(1 + 2 r) over such joints.
    /// 1 for a pipe that narrows or stays.
    /// </summary>
    public double EchoGain => Enumerable.Range(0, _reaches.Length - 1).Aggregate(1.0, (gain, joint) => gain * (1 + 2 * Math.Max(0, ReflectionFromRam(joint))));

    /// <summary>Head that a sudden stop of a flow makes at the body before any echo is back, B Q [m].</summary>
    /// <param name="flowM3PerS">Flow taken away [m³/s].</param>
    public double KnockHeadM(double flowM3PerS) => AtRam.ImpedanceSPerM2 * flowM3PerS;

    /// <summary>Head needed to speed the whole column up [m] by a rate of flow [m³/s²].</summary>
    /// <param name="flowRateM3PerS2">dQ/dt [m³/s²].</param>
    public double InertiaHeadM(double flowRateM3PerS2) => InertiaPerM / Constants.GravityMPerS2 * flowRateM3PerS2;

    private double PhaseAtBody(double omega)
    {
        double phase = 0.0;
        double before = _reaches[0].ImpedanceSPerM2;
        foreach (PipeReach reach in _reaches)
        {
            phase = AcrossJoint(phase, before / reach.ImpedanceSPerM2) + omega * reach.WaveTimeS;
            before = reach.ImpedanceSPerM2;
        }

        return phase;
    }

    // h and q are the same on both sides: tan φ' = ratio · tan φ, on the same branch.
    private static double AcrossJoint(double phase, double ratio)
    {
        double turns = Math.Round(phase / Math.PI);
        return turns * Math.PI + Math.Atan(ratio * Math.Tan(phase - turns * Math.PI));
    }
}
