namespace Clackbeat.Hydraulics.Rating;

/// <summary>Where a load stands against what the pipe may bear.</summary>
public enum PipeVerdict
{
    /// <summary>The data can't carry a verdict.</summary>
    Unknown,

    /// <summary>The load, with its uncertainty, stays under what is allowed.</summary>
    Within,

    /// <summary>The load reaches what is allowed within its uncertainty.</summary>
    Near,

    /// <summary>The load exceeds what is allowed.</summary>
    Over,
}
