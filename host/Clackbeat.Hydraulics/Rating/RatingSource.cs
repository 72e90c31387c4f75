namespace Clackbeat.Hydraulics.Rating;

/// <summary>Where a rating comes from.</summary>
public enum RatingOrigin
{
    /// <summary>Printed on the pipe, as the site file says.</summary>
    Printed,

    /// <summary>A row of the pipe tables.</summary>
    Table,

    /// <summary>Computed from a metal wall, less tolerance and rust, and thread where there is one.</summary>
    MetalWall,

    /// <summary>Computed from a plastic wall, since no class of the tables fits its dimensions.</summary>
    PlasticWall,
}

/// <summary>A rating's origin with what is needed to name it.</summary>
/// <param name="Origin">Which kind.</param>
public sealed record RatingSource(RatingOrigin Origin)
{
    /// <summary>Row of the tables, or grade of the metal; empty otherwise.</summary>
    public string Name { get; init; } = "";

    /// <summary>Standard or book; empty for what is printed.</summary>
    public string Citation { get; init; } = "";

    /// <summary>The thread was taken off the wall.</summary>
    public bool IsThreaded { get; init; }

    /// <summary>Design stress of a plastic wall [Pa].</summary>
    public double? DesignStressPa { get; init; }

    /// <summary>The figure was never checked against the standard itself: the column "unconfirmed" of its table says so.</summary>
    public bool IsUnconfirmed { get; init; }
}

/// <summary>Why another figure than the one chosen could be taken.</summary>
public enum AlternativeBasis
{
    /// <summary>Another rating that fits the same pipe; the lowest was taken.</summary>
    OtherRating,

    /// <summary>The plain rating, without the recurring-surge allowance.</summary>
    PlainRating,

    /// <summary>Barlow's formula on the full wall at 70 % of yield: a check of the metal, no working rating.</summary>
    BarlowOnFullWall,

    /// <summary>The old British rule CP 312: swing at most half the rating.</summary>
    HalfTheRating,

    /// <summary>Another source's factor for temperature.</summary>
    OtherTemperatureFactor,
}

/// <summary>What another source, rule or assumption would allow.</summary>
/// <param name="AllowablePa">Allowable recurring pressure by it [Pa gauge].</param>
/// <param name="Basis">Why it was not the one chosen.</param>
public sealed record RatingAlternative(double AllowablePa, AlternativeBasis Basis)
{
    /// <summary>The other rating's source; null for a rule.</summary>
    public RatingSource? Source { get; init; }

    /// <summary>Citation of the other temperature factor; empty otherwise.</summary>
    public string Citation { get; init; } = "";

    /// <summary>The other temperature factor.</summary>
    public double? Factor { get; init; }

    /// <summary>The temperature factor that was taken.</summary>
    public double? TakenFactor { get; init; }
}
