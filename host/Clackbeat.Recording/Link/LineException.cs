using Clackbeat.Site.Facts;

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

/// <summary>A port can't be used; its fact says why and what to do.</summary>
public sealed class LineException : IOException, ITelling
{
    /// <summary>Makes the error.</summary>
    public LineException(LineFault fault, Fact what, Exception? inner)
        : base(null, inner) => (Fault, What) = (fault, what);

    /// <inheritdoc/>
    public Fact What { get; }

    /// <inheritdoc/>
    public override string Message => ExceptionText.Say(What);

    /// <summary>Why.</summary>
    public LineFault Fault { get; }
}
