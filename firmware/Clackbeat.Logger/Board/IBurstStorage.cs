namespace Clackbeat.Logger.Board;

/// <summary>
/// Where a lone logger keeps its bursts (SPEC §10). No method throws for a card that is missing, full or worn; it says
/// so by its result and by <see cref="State"/>. The properties cost nothing to read, even between two samples.
/// </summary>
public interface IBurstStorage
{
    /// <summary>State, from the protocol's storage states.</summary>
    int State { get; }

    /// <summary>Free space [KiB]; the protocol's "unknown" where it can't be told.</summary>
    uint FreeKib { get; }

    /// <summary>Lowest burst number held, as the last <see cref="Survey"/> found it; 0 for none.</summary>
    uint FirstBurst { get; }

    /// <summary>Highest burst number held; 0 for none.</summary>
    uint LastBurst { get; }

    /// <summary>How many bursts are held, as the last <see cref="Survey"/> found it.</summary>
    uint BurstCount { get; }

    /// <summary>Makes the storage ready; false when it can't be used.</summary>
    bool Open();

    /// <summary>
    /// Finds the highest burst number: forward from one that is remembered, or over the whole card where that is 0.
    /// </summary>
    void FindLast(uint rememberedBurst);

    /// <summary>Counts all that is held. Takes seconds on a card with thousands of bursts.</summary>
    void Survey();

    /// <summary>Tries whether the card takes a file of so many bytes, and leaves nothing behind; <see cref="State"/> tells.</summary>
    void Probe(int bytes);

    /// <summary>
    /// Creates a burst's file and makes sure of room for it. Never touches a file that is there already: then false. On a
    /// card without that room false as well, and no file is left.
    /// </summary>
    /// <param name="burst">Its number.</param>
    /// <param name="bytes">How long the file is going to be, at the least.</param>
    bool Begin(uint burst, int bytes);

    /// <summary>Measures how long the card takes over blocks, and leaves nothing behind; false when it takes none.</summary>
    bool Time(ILoggerBoard board);

    /// <summary>Mean time that <see cref="Time"/> found for a block of 2 KiB [µs].</summary>
    uint BlockMicroseconds { get; }

    /// <summary>Longest such time [µs].</summary>
    uint WorstBlockMicroseconds { get; }

    /// <summary>Appends to the burst begun last.</summary>
    bool Append(byte[] bytes, int count);

    /// <summary>Makes what was appended so far safe from a loss of power.</summary>
    bool Flush();

    /// <summary>
    /// Sets free the room that was kept for the burst's end: what comes now is the last of the file.
    /// </summary>
    void UseEndRoom();

    /// <summary>Closes the burst's file; only then is it wholly safe from a loss of power.</summary>
    bool End();

    /// <summary>Ends the burst begun last and removes its file, which holds nothing worth keeping.</summary>
    void Abandon();

    /// <summary>Length of a burst's file [bytes]; 0 when there is none.</summary>
    uint LengthOf(uint burst);

    /// <summary>Reads a stretch of a burst's file; returns how many bytes, 0 at the end or when there is none.</summary>
    int Read(uint burst, uint offset, byte[] buffer, int count);

    /// <summary>Reads one of the state files, by its number in <see cref="Alone.BurstNames"/>; returns how many bytes, 0 when there is none.</summary>
    int ReadState(int slot, byte[] buffer);

    /// <summary>Writes one of these files anew and closes it.</summary>
    bool WriteState(int slot, byte[] bytes, int count);
}
