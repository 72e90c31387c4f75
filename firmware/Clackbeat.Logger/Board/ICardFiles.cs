namespace Clackbeat.Logger.Board;

/// <summary>
/// The few calls on files that a card offers: one thin implementation a board. A folder "" is the card's root; a file
/// is named by its folder and its own name. Each call may throw whatever the system throws:
/// <see cref="Alone.BurstFiles"/> turns that into a state.
/// </summary>
public interface ICardFiles
{
    /// <summary>Free space [KiB]; the protocol's "unknown" where it can't be told.</summary>
    uint FreeKib { get; }

    /// <summary>Makes the card ready; false when none is in.</summary>
    bool Mount();

    /// <summary>Lets go of a card that failed, so that the next <see cref="Mount"/> begins anew.</summary>
    void Unmount();

    /// <summary>True when the folder exists.</summary>
    bool FolderExists(string folder);

    /// <summary>Makes a folder in the root; one that exists stays as it is.</summary>
    void MakeFolder(string folder);

    /// <summary>Names of the files in a folder, with or without their paths.</summary>
    string[] Files(string folder);

    /// <summary>True when the file exists.</summary>
    bool Exists(string folder, string name);

    /// <summary>Makes a new file and keeps it open; fails where one of that name exists.</summary>
    void Create(string folder, string name);

    /// <summary>
    /// Tries whether the file made last may grow by so many bytes, and leaves it as long as it was. To be asked before
    /// <see cref="Append"/>: on a full card the board's file system writes nothing, says "done", and then waits without end.
    /// </summary>
    bool HasRoomFor(int bytes);

    /// <summary>Appends to the file made last.</summary>
    void Append(byte[] bytes, int count);

    /// <summary>Brings what was appended safely onto the card.</summary>
    void Flush();

    /// <summary>Closes the file made last; nothing when none is open.</summary>
    void Close();

    /// <summary>Removes a file.</summary>
    void Delete(string folder, string name);

    /// <summary>Opens a file to be read, and closes the one that was being read.</summary>
    void OpenToRead(string folder, string name);

    /// <summary>Closes the file that is being read; nothing when there is none.</summary>
    void CloseRead();

    /// <summary>Length of the file that is being read [bytes].</summary>
    long ReadLength { get; }

    /// <summary>Reads a stretch of that file; returns how many bytes, 0 at its end.</summary>
    int Read(long offset, byte[] buffer, int count);

    /// <summary>Writes a whole small file anew and closes it; false, and an empty file, when there is no room.</summary>
    bool Write(string folder, string name, byte[] bytes, int count);
}
