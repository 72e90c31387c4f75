namespace Clackbeat.Hydraulics.Rating;

/// <summary>A change that a keeper can make, or that happens to a ram.</summary>
public enum RemedyCode
{
    /// <summary>None.</summary>
    AsItIs,

    /// <summary>Less weight or a weaker spring on the waste valve.</summary>
    LighterValve,

    /// <summary>Less travel of the waste valve.</summary>
    ShorterStroke,

    /// <summary>The same pipe in a class with a thicker wall.</summary>
    StrongerClass,

    /// <summary>A pipe of steel.</summary>
    StifferPipe,

    /// <summary>A pipe of polyethylene.</summary>
    SofterPipe,

    /// <summary>More air in the vessel.</summary>
    MoreAir,

    /// <summary>No air in the vessel: what happens, no remedy.</summary>
    NoAir,
}

/// <summary>A change with the pipe it brings.</summary>
/// <param name="Code">What is changed.</param>
/// <param name="Pipe">The other pipe as the tables name it; empty where it stays.</param>
public sealed record RemedyChange(RemedyCode Code, string Pipe = "");

/// <summary>Why nothing is told of a change.</summary>
public enum RemedyLack
{
    /// <summary>The time was up.</summary>
    Time,

    /// <summary>The virtual ram doesn't beat even without it.</summary>
    NoBeat,

    /// <summary>The virtual ram stops with it.</summary>
    Stops,
}
