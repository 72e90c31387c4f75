using Clackbeat.VirtualRam.Conditions;

namespace Clackbeat.VirtualRam;

/// <summary>How to run a virtual ram.</summary>
public sealed record SimulationOptions
{
    /// <summary>Condition; a well ram when left out.</summary>
    public Fault Fault { get; init; } = Fault.None;

    /// <summary>Seed of all that is random: the same seed gives the same samples.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>Start at time 0 with the water at rest and a keeper who starts the ram; otherwise it has been running for a while.</summary>
    public bool FromRest { get; init; }

    /// <summary>How long it has been running before time 0 [s].</summary>
    public double WarmUpS { get; init; } = 15;
}
