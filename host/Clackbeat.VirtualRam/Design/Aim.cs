using System.Globalization;
using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Design;

/// <summary>The velocity at which the waste valve shall lift and the head it then takes: what a keeper sets by trying.</summary>
internal sealed record Aim
{
    /// <summary>Usual closing velocity [m/s]; rams are set to 1 to 2 m/s (common practice).</summary>
    private const double UsualVelocityMPerS = 1.3;

    /// <summary>Lift-off as a share of the flow that runs with the valve held open (T. H. Thomas's λ, Warwick DTU WP41, 1994).</summary>
    private const double UsualShare = 0.75;

    /// <summary>The surge must exceed what opens the delivery valve by this factor (λ, µ of the same paper: at 1 nothing is delivered).</summary>
    private const double SurgeReserve = 1.8;

    internal required double VelocityMPerS { get; init; }

    /// <summary>Velocity with the waste valve held open [m/s].</summary>
    internal required double TerminalMPerS { get; init; }

    /// <summary>Loss of the open waste valve, head per square of the pipe's velocity [s²/m].</summary>
    internal required double ValveLoss { get; init; }

    internal required RigidCycle Cycle { get; init; }

    internal static Aim Choose(
        WaterParameters water, SupplyParameters supply, PipeParameters pipe, double deliveryM, List<string> warnings)
    {
        const double g = Constants.GravityMPerS2;
        var bare = RigidCycle.From(pipe, supply.HeadM, deliveryM, 1, UsualShare).PeriodS;
        var idle = RigidCycle.From(pipe, supply.HeadM, deliveryM, 0, UsualShare).PeriodS;
        // The period rises in proportion to the velocity: keep it between half a second and 1.6 s where that can be had.
        var velocity = Math.Clamp(UsualVelocityMPerS, (0.5 - idle) / (bare - idle), (1.6 - idle) / (bare - idle));
        var opens = g * (1.05 * deliveryM - supply.HeadM) / pipe.WaveSpeedMPerS;
        velocity = Math.Max(velocity, SurgeReserve * opens);
        var loss = RigidCycle.PipeLoss(water, supply.LossCoefficient, pipe, velocity);
        var free = Math.Sqrt(supply.HeadM / loss);
        // The open valve needs a tenth of the head to be lifted at all.
        var terminal = Math.Min(velocity / UsualShare, 0.93 * free);
        velocity = Math.Min(velocity, 0.88 * terminal);
        if (velocity < 1.15 * opens)
        {
            warnings.Add(string.Create(
                CultureInfo.InvariantCulture,
                $"This drive pipe can hardly lift water to {deliveryM:0.#} m: at the {velocity:0.0#} m/s it can reach, its surge is "
                + $"{pipe.WaveSpeedMPerS * velocity / g:0} m. A stiffer, wider or shorter drive pipe, or more fall, would."));
        }

        return new Aim
        {
            VelocityMPerS = velocity,
            TerminalMPerS = terminal,
            ValveLoss = supply.HeadM / (terminal * terminal) - loss,
            Cycle = RigidCycle.From(pipe, supply.HeadM, deliveryM, velocity, velocity / terminal),
        };
    }
}
