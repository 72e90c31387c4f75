namespace Clackbeat.Protocol.Samples;

/// <summary>What an entry of a samples frame says.</summary>
public enum EntryKind
{
    /// <summary>A reading of channel 0 with its own time.</summary>
    Sample,

    /// <summary>A reading of another channel.</summary>
    Reading,

    /// <summary>Grid points that have no sample.</summary>
    Skip,
}
