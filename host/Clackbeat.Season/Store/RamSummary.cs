namespace Clackbeat.Season.Store;

/// <summary>What a store holds of one ram up to its last burst, summed up by the store itself.</summary>
/// <param name="Ram">Name of the ram.</param>
/// <param name="Last">The last burst.</param>
public sealed record RamSummary(string Ram, BurstState Last)
{
    /// <summary>Condition codes and probabilities of the last burst.</summary>
    public IReadOnlyDictionary<string, double> Conditions { get; init; } = new Dictionary<string, double>();

    /// <summary>Mean time from burst to burst in the fortnight up to the last one [s]; null for a single burst.</summary>
    public double? SpacingS { get; init; }

    /// <summary>Share of the last week's bursts in which the ram beat, 0 to 1.</summary>
    public double BeatingShare { get; init; }

    /// <summary>Delivered flow while it beats.</summary>
    public RecentFigure? Delivered { get; init; }

    /// <summary>Peak over what a recurring load may reach.</summary>
    public RecentFigure? RatingUse { get; init; }

    /// <summary>What a keeper did last; null for nothing.</summary>
    public MaintenanceMark? LastMark { get; init; }
}

/// <summary>A figure's means before the ram's last burst.</summary>
/// <param name="Week">Of the last seven days. Its ± is the mean of the bursts' own, which share their causes; null where none has one.</param>
/// <param name="Before">Of the four weeks before those; null where no burst has the figure.</param>
public readonly record struct RecentFigure(SeasonValue Week, SeasonValue? Before);

/// <summary>A store that sums up all its rams at once, so that a thousand of them take a second.</summary>
public interface IOverviewStore : ISeasonStore
{
    /// <summary>A summary of each ram that has a burst, by name.</summary>
    IReadOnlyList<RamSummary> Summaries();
}
