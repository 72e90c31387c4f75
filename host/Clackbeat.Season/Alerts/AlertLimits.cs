namespace Clackbeat.Season.Alerts;

/// <summary>When to speak. The usual values are a choice of this project; docs/unattended.md says what they come to.</summary>
public sealed record AlertLimits
{
    /// <summary>Irregularity (standard deviation of the interval over its mean) below which no ram is called uneven.</summary>
    public double IrregularityLeast { get; init; } = 0.08;

    /// <summary>Rating use beyond which peaks are too high; 1 is the rating.</summary>
    public double RatingUse { get; init; } = 1;

    /// <summary>Fall of the efficiency that counts, as a share of what it was when the ram was well.</summary>
    public double EfficiencyDrop { get; init; } = 0.15;

    /// <summary>Supply head that counts as low, as a share of the site file's.</summary>
    public double SupplyLow { get; init; } = 0.7;

    /// <summary>How long no burst may come before the logger is called silent; three periods of the schedule at least.</summary>
    public TimeSpan SilentAfter { get; init; } = TimeSpan.FromHours(1);
}
