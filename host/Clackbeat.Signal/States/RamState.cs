namespace Clackbeat.Signal.States;

/// <summary>What the ram was doing when the record ended.</summary>
public enum RamState
{
    /// <summary>Nothing in the record can be a ram: no samples, or a dead sensor.</summary>
    NoSignal,

    /// <summary>It beats.</summary>
    Beating,

    /// <summary>Waste valve held shut; the body stands at supply head.</summary>
    StoppedShut,

    /// <summary>Waste valve held open; water runs to waste.</summary>
    StoppedOpen,
}
