namespace Clackbeat.Season.Store;

/// <summary>
/// Summaries of every burst of one or many rams, over years. A burst is stored whole or not at all, and once: when
/// <see cref="Add(IReadOnlyCollection{SeasonBurst})"/> has returned it is on the disk. Any thread may use a store; they take turns.
/// </summary>
public interface ISeasonStore : IDisposable
{
    /// <summary>Names of the rams, in the order of the alphabet.</summary>
    IReadOnlyList<string> Rams();

    /// <summary>Stores bursts, all of them in one transaction.</summary>
    /// <param name="bursts">The bursts.</param>
    /// <returns>How many were new; the others were stored before and left as they were.</returns>
    int Add(IReadOnlyCollection<SeasonBurst> bursts);

    /// <summary>Whether a burst is stored.</summary>
    /// <param name="ram">Name of the ram.</param>
    /// <param name="sourceHash">Its hash.</param>
    bool Has(string ram, byte[] sourceHash);

    /// <summary>Values of one figure, oldest first.</summary>
    /// <param name="ram">Name of the ram.</param>
    /// <param name="figure">The figure.</param>
    /// <param name="span">From (included) and to (excluded).</param>
    IReadOnlyList<SeasonPoint> Series(string ram, SeasonFigure figure, TimeSpanUtc span);

    /// <summary>Start, length and state of each burst, oldest first.</summary>
    /// <param name="ram">Name of the ram.</param>
    /// <param name="span">From (included) and to (excluded).</param>
    IReadOnlyList<BurstState> States(string ram, TimeSpanUtc span);

    /// <summary>Whole bursts with their beats, oldest first, read as they are asked for.</summary>
    /// <param name="ram">Name of the ram.</param>
    /// <param name="span">From (included) and to (excluded).</param>
    IEnumerable<SeasonBurst> Bursts(string ram, TimeSpanUtc span);

    /// <summary>Stores a mark; the same mark twice is one.</summary>
    /// <param name="mark">The mark.</param>
    void Add(MaintenanceMark mark);

    /// <summary>Marks, oldest first.</summary>
    /// <param name="ram">Name of the ram.</param>
    IReadOnlyList<MaintenanceMark> Marks(string ram);
}

/// <summary>A stretch of calendar time.</summary>
/// <param name="From">Included.</param>
/// <param name="To">Excluded.</param>
public readonly record struct TimeSpanUtc(DateTimeOffset From, DateTimeOffset To)
{
    /// <summary>All there is.</summary>
    public static TimeSpanUtc All { get; } = new(DateTimeOffset.UnixEpoch, DateTimeOffset.MaxValue);
}
