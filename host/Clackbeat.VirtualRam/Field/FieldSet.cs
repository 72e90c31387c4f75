namespace Clackbeat.VirtualRam.Field;

/// <summary>What a drawn ram may be used for. The sets share no ram, so what one chose another can report.</summary>
public enum FieldSet
{
    /// <summary>To choose methods, constants and weights by.</summary>
    Choosing,

    /// <summary>To check on while working.</summary>
    Checking,

    /// <summary>To report on: looked at only when nothing is chosen any more.</summary>
    Reporting,
}
