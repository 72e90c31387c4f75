namespace Clackbeat.Hydraulics.Transients;

/// <summary>How a pipe is held lengthwise, which decides how far its wall can give.</summary>
public enum PipeRestraint
{
    /// <summary>Held against movement over its whole length: buried, clamped or lying heavy. Taken when nothing is known.</summary>
    AnchoredThroughout,

    /// <summary>Held at the upstream end only; the far end pulls the wall lengthwise.</summary>
    AnchoredUpstream,

    /// <summary>Expansion joints along it: no lengthwise stress.</summary>
    ExpansionJoints,
}
