using Clackbeat.Hydraulics.Water;
using Clackbeat.Site.Facts;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Design;

/// <summary>The velocity at which the waste valve shall lift and the head it then takes: what a keeper sets by trying.</summary>
internal sealed record Aim
{
    /// <summary>Usual closing velocity [m/s]; rams are set to 1 to 2 m/s (common practice).</summary>
    private const double UsualVelocityMPerS = 1.3;

    /// <summary>Lift-off as a share of the flow that runs with the valve held open (T. H. Thomas's λ, Warwick DTU WP41, 1994).</summary>
    private const double UsualShare = 0.75;

    /// <summary>The surge must exceed what opens the delivery valve by this factor (µ of the same paper: below 1 nothing is delivered).</summary>
    private const double SurgeReserve = 1.8;

    private const double LeastReserve = 1.4;

    /// <summary>Above this a ram is driven harder than usual [m/s] (common practice).</summary>
    private const double FastVelocityMPerS = 2;

    /// <summary>No sound ram is set to more [m/s] (common practice).</summary>
    private const double FastestVelocityMPerS = 3.5;

    /// <summary>
    /// 15 beats a minute, with a margin since real cycles last up to a sixth longer than the rigid one [s]; slower rams are
    /// hardly met (common practice).
    /// </summary>
    private const double LongestPeriodS = 3.4;

    internal required double VelocityMPerS { get; init; }

    /// <summary>Velocity with the waste valve held open [m/s].</summary>
    internal required double TerminalMPerS { get; init; }

    /// <summary>Loss of the open waste valve, head per square of the pipe's velocity [s²/m].</summary>
    internal required double ValveLoss { get; init; }

    internal required RigidCycle Cycle { get; init; }

    internal static Aim Choose(
        WaterParameters water, SupplyParameters supply, PipeParameters pipe, double deliveryM, List<Fact> warnings)
    {
        const double g = Constants.GravityMPerS2;
        double bare = RigidCycle.From(pipe, supply.HeadM, deliveryM, 1, UsualShare).PeriodS;
        double idle = RigidCycle.From(pipe, supply.HeadM, deliveryM, 0, UsualShare).PeriodS;
        // The period rises in proportion to the velocity: keep it between half a second and 1.6 s where that can be had.
        double velocity = Math.Clamp(UsualVelocityMPerS, (0.5 - idle) / (bare - idle), (1.6 - idle) / (bare - idle));
        double opens = g * (1.05 * deliveryM - supply.HeadM) / pipe.WaveSpeedMPerS;
        // Enough surge to deliver, with less reserve where that takes an unusual speed, and no beat slower than 3.2 s.
        velocity = Math.Max(velocity, Math.Min(SurgeReserve * opens, Math.Max(FastVelocityMPerS, LeastReserve * opens)));
        velocity = Math.Min(velocity, Math.Max((3.2 - idle) / (bare - idle), LeastReserve * opens));
        double loss = RigidCycle.PipeLoss(water, supply.LossCoefficient, pipe, velocity);
        double free = Math.Sqrt(supply.HeadM / loss);
        // The open valve needs a tenth of the head to be lifted at all.
        double terminal = Math.Min(velocity / UsualShare, 0.93 * free);
        velocity = Math.Min(velocity, 0.88 * terminal);
        var cycle = RigidCycle.From(pipe, supply.HeadM, deliveryM, velocity, velocity / terminal);
        if (velocity < 1.2 * opens || velocity > FastestVelocityMPerS || cycle.PeriodS > LongestPeriodS)
        {
            warnings.Add(Fact.Of("virtual.poor-match", ("lift_m", deliveryM), ("opens_m_per_s", opens), ("set_m_per_s", velocity)));
        }

        return new Aim
        {
            VelocityMPerS = velocity,
            TerminalMPerS = terminal,
            ValveLoss = supply.HeadM / (terminal * terminal) - loss,
            Cycle = cycle,
        };
    }
}
