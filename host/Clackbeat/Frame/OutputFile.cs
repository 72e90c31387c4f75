using Clackbeat.Site;
using Clackbeat.Words;

namespace Clackbeat.Frame;

/// <summary>
/// A file that appears whole or not at all, and never in place of another unless that was asked for. Bytes go to a
/// temporary neighbour, which <see cref="Commit"/> moves to the name; disposing without it leaves nothing behind.
/// </summary>
internal sealed class OutputFile : IDisposable
{
    private readonly string _temporary;
    private readonly bool _overwrite;
    private bool _committed;

    private OutputFile(string path, bool overwrite)
    {
        Path = path;
        _overwrite = overwrite;
        _temporary = $"{path}.{Environment.ProcessId}.part";
        Stream = Open(_temporary, path);
    }

    /// <summary>The name the file will have.</summary>
    public string Path { get; }

    /// <summary>Takes the content; owned by this object.</summary>
    public FileStream Stream { get; }

    /// <summary>
    /// Claims a name before the work starts.
    /// </summary>
    /// <param name="path">Where the file is to be.</param>
    /// <param name="overwrite">The user agreed to replace a file of that name.</param>
    /// <exception cref="InputException">The name is taken or is one that the command reads, or its folder doesn't exist.</exception>
    public static OutputFile Create(string path, bool overwrite)
    {
        string? full = System.IO.Path.GetFullPath(path);
        if (Directory.Exists(full))
        {
            throw InputException.Of("input.is-folder", ("file", path));
        }

        NamedFiles.RefuseAsOutput(path);
        string? folder = System.IO.Path.GetDirectoryName(full);
        if (folder is not null && !Directory.Exists(folder))
        {
            throw InputException.Of("input.no-such-folder", ("file", path), ("folder", folder));
        }

        RefuseTaken(full, path, overwrite);
        return new OutputFile(full, overwrite);
    }

    /// <summary>Writes a whole text file (UTF-8) in one go.</summary>
    public static void WriteText(string path, string text, bool overwrite)
    {
        using OutputFile file = Create(path, overwrite);
        file.Stream.Write(System.Text.Encoding.UTF8.GetBytes(text));
        file.Commit();
    }

    /// <summary>Writes text (UTF-8), then commits.</summary>
    public void WriteAndCommit(Action<TextWriter> write)
    {
        using (var writer = new StreamWriter(Stream, leaveOpen: true))
        {
            write(writer);
        }

        Commit();
    }

    /// <summary>Brings the content safely to the disk and gives the file its name.</summary>
    /// <exception cref="InputException">Another program took the name meanwhile.</exception>
    public void Commit()
    {
        Stream.Flush(flushToDisk: true);
        Stream.Dispose();
        RefuseTaken(Path, Path, _overwrite);
        File.Move(_temporary, Path, _overwrite);
        _committed = true;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        Stream.Dispose();
        if (!_committed)
        {
            File.Delete(_temporary);
        }
    }

    // Some folders take no files at all; the system then complains of the temporary name, which nobody typed.
    private static FileStream Open(string temporary, string path)
    {
        try
        {
            return new FileStream(temporary, FileMode.Create, FileAccess.ReadWrite, FileShare.Read);
        }
        catch (FileNotFoundException failure)
        {
            throw new IOException(Phrases.Say("input.cant-be-made", ("file", path)), failure);
        }
    }

    private static void RefuseTaken(string full, string shown, bool overwrite)
    {
        if (!overwrite && File.Exists(full))
        {
            throw InputException.Of("input.exists", ("file", shown));
        }
    }
}
