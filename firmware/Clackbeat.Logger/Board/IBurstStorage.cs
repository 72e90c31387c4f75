namespace Clackbeat.Logger.Board;

/// <summary>
/// Where a lone logger keeps its bursts (SPEC §10): a card, or a folder. No method throws for a card that is missing,
/// full or worn; it says so by its result and by <see cref="State"/>.
/// </summary>
public interface IBurstStorage
{
    /// <summary>State, from the protocol's storage states.</summary>
    int State { get; }

    /// <summary>Free space [KiB]; the protocol's "unknown" where it can't be told.</summary>
    uint FreeKib { get; }

    /// <summary>Lowest burst number held; 0 for none.</summary>
    uint FirstBurst { get; }

    /// <summary>Highest burst number held; 0 for none.</summary>
    uint LastBurst { get; }

    /// <summary>How many bursts are held.</summary>
    uint BurstCount { get; }

    /// <summary>Makes the storage ready and looks what it holds; false when it can't be used.</summary>
    bool Open();

    /// <summary>Creates a burst's file. Never touches a file that is there already: then false.</summary>
    bool Begin(uint burst);

    /// <summary>Appends to the burst begun last.</summary>
    bool Append(byte[] bytes, int count);

    /// <summary>Closes the burst's file; only then is it safe from a loss of power.</summary>
    bool End();

    /// <summary>Length of a burst's file [bytes]; 0 when there is none.</summary>
    uint LengthOf(uint burst);

    /// <summary>Reads a stretch of a burst's file; returns how many bytes, 0 at the end or when there is none.</summary>
    int Read(uint burst, uint offset, byte[] buffer, int count);

    /// <summary>Reads one of the two state files, 0 or 1; returns how many bytes, 0 when there is none.</summary>
    int ReadState(int slot, byte[] buffer);

    /// <summary>Writes one of the two state files anew and closes it.</summary>
    bool WriteState(int slot, byte[] bytes, int count);
}
