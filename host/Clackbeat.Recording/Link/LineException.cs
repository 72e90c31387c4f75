namespace Clackbeat.Recording.Link;

/// <summary>Why a port can't be used.</summary>
public enum LineFault
{
    /// <summary>There is no such port.</summary>
    Missing,

    /// <summary>Another program holds it.</summary>
    Busy,

    /// <summary>This user may not use it.</summary>
    NoPermission,

    /// <summary>It is there and refuses.</summary>
    Failed,
}

/// <summary>A port can't be used; the message says why and what to do.</summary>
public sealed class LineException : IOException
{
    /// <summary>Makes the error.</summary>
    public LineException(LineFault fault, string message, Exception? inner)
        : base(message, inner) => Fault = fault;

    /// <summary>Why.</summary>
    public LineFault Fault { get; }
}
