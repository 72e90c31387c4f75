using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Conditions;

/// <summary>A condition, how bad it is and when it sets in.</summary>
public sealed record Fault
{
    /// <summary>A ram that is well.</summary>
    public static Fault None { get; } = new() { Condition = RamCondition.Healthy };

    /// <summary>What is wrong.</summary>
    public required RamCondition Condition { get; init; }

    /// <summary>How bad, from 0 (as good as well) to 1 (the worst that still is this condition).</summary>
    public double Severity { get; init; } = 0.5;

    /// <summary>When a stopping condition stops the ram [s].</summary>
    public double StopsAtS { get; init; } = 8;

    /// <summary>Which way the supply is starved.</summary>
    public StarvedBy StarvedBy { get; init; }

    /// <summary>Which way the sensor lies.</summary>
    public SensorFaultKind SensorFault { get; init; }

    /// <summary>Where a delivery main leaks: share of its length from the vessel, above 0 and below 1.</summary>
    public double LeakAt { get; init; } = MainParameters.UsualLeakAt;
}

/// <summary>Ways to starve a ram.</summary>
public enum StarvedBy
{
    /// <summary>The water level at the intake has sunk.</summary>
    LowLevel,

    /// <summary>Leaves on the strainer.</summary>
    BlockedStrainer,

    /// <summary>A gate valve beside the ram that is not fully open.</summary>
    HalfShutGate,
}

/// <summary>Ways a sensor lies.</summary>
public enum SensorFaultKind
{
    /// <summary>The reading stands still.</summary>
    FlatLine,

    /// <summary>A broken wire: the converter reads its lowest code.</summary>
    OpenLoop,

    /// <summary>The sensor's range is far too small: peaks are cut off.</summary>
    Clipping,

    /// <summary>Swapped polarity: the reading falls where the pressure rises.</summary>
    Inverted,

    /// <summary>A bad earth: noise far above the sensor's own.</summary>
    Noisy,

    /// <summary>Air in the tap line: a slow, ringing reading.</summary>
    AirInTap,
}
