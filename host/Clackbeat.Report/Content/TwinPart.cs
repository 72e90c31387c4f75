using Clackbeat.Hydraulics.Rating;
using Clackbeat.Site.Facts;

namespace Clackbeat.Report.Content;

/// <summary>What the twin of a record's ram adds to its report.</summary>
public sealed record TwinPart
{
    /// <summary>What changes to this ram would bring; null where it is withheld.</summary>
    public RemedyTable? Remedies { get; init; }

    /// <summary>Why it is withheld; null where it isn't.</summary>
    public Fact? WhyNoRemedies { get; init; }

    /// <summary>Which parts have moved since the baseline; empty without one.</summary>
    public IReadOnlyList<Fact> Moved { get; init; } = [];
}
