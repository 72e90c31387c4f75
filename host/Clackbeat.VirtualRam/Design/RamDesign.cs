using Clackbeat.Site.Facts;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Design;

/// <summary>A ram made up for a site.</summary>
public sealed record RamDesign
{
    /// <summary>The ram.</summary>
    public required RamParameters Ram { get; init; }

    /// <summary>The sensor on its body, as the site file describes it.</summary>
    public required SensorParameters Sensor { get; init; }

    /// <summary>Speed at which the waste valve was meant to lift [m/s].</summary>
    public required double LiftOffVelocityMPerS { get; init; }

    /// <summary>What is doubtful about this ram; empty for a sound one.</summary>
    public required IReadOnlyList<Fact> Warnings { get; init; }
}
