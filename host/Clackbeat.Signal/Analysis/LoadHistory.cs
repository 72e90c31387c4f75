using Clackbeat.Hydraulics.Fatigue;

namespace Clackbeat.Signal.Analysis;

/// <summary>The pressures a record's pipe has met, as far as pictures and fatigue need them; bounded whatever its length.</summary>
public sealed record LoadHistory
{
    /// <summary>Rainflow count of the samples [Pa gauge].</summary>
    public required RainflowHistogram Cycles { get; init; }

    /// <summary>Beating time that <see cref="Cycles"/> covers [s].</summary>
    public required double BeatingS { get; init; }

    /// <summary>Lower end of the first level of <see cref="SamplesAtLevel"/> [Pa gauge].</summary>
    public required double LowPa { get; init; }

    /// <summary>Height of a level [Pa].</summary>
    public required double LevelPa { get; init; }

    /// <summary>Samples at each level, from the lowest up.</summary>
    public required IReadOnlyList<long> SamplesAtLevel { get; init; }

    /// <summary>Noise of a sample, one standard deviation, from the record's first samples [Pa].</summary>
    public required double NoisePa { get; init; }

    /// <summary>Swings of this size or less were left out of the count as noise [Pa].</summary>
    public required double HysteresisPa { get; init; }
}
