namespace Clackbeat.Watch.Live;

/// <summary>What somebody changed at the ram.</summary>
/// <param name="AtS">At which sample [s].</param>
/// <param name="Words">What, in the keeper's words.</param>
internal sealed record LiveMark(double AtS, string Words);

/// <summary>What a page is to be told at one instant.</summary>
internal sealed record LiveView
{
    public required LiveState State { get; init; }

    public required LinkState Link { get; init; }

    /// <summary>Body level over supply head, of a ram that stands still.</summary>
    public required double? RestShare { get; init; }

    public required Health Health { get; init; }

    /// <summary>Number of the first column in <see cref="Steps"/>.</summary>
    public required long FirstColumn { get; init; }

    /// <summary>Length of a column [s]; 0 while unknown.</summary>
    public required double ColumnS { get; init; }

    public required short[] Steps { get; init; }

    public required IReadOnlyList<LiveBeat> Beats { get; init; }

    /// <summary>Newest sample [s].</summary>
    public required double NewestS { get; init; }

    public required double? LastClosureS { get; init; }

    /// <summary>How long ago the newest sample came [s].</summary>
    public required double AgeS { get; init; }
}
