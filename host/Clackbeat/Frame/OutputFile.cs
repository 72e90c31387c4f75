using Clackbeat.Site;

namespace Clackbeat.Frame;

/// <summary>
/// A file that appears whole or not at all, and never in place of another unless that was asked for. Bytes go to a
/// temporary neighbour, which <see cref="Commit"/> moves to the name; disposing without it leaves nothing behind.
/// </summary>
internal sealed class OutputFile : IDisposable
{
    private readonly string temporary;
    private readonly bool overwrite;
    private bool committed;

    private OutputFile(string path, bool overwrite)
    {
        Path = path;
        this.overwrite = overwrite;
        temporary = $"{path}.{Environment.ProcessId}.part";
        Stream = Open(temporary, path);
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
    /// <exception cref="InputException">The name is taken, or its folder doesn't exist.</exception>
    public static OutputFile Create(string path, bool overwrite)
    {
        var full = System.IO.Path.GetFullPath(path);
        if (Directory.Exists(full))
        {
            throw new InputException($"{path}: this is a folder. Name a file in it.");
        }

        var folder = System.IO.Path.GetDirectoryName(full);
        if (folder is not null && !Directory.Exists(folder))
        {
            throw new InputException($"{path}: the folder {folder} doesn't exist. Make it first, or choose another.");
        }

        RefuseTaken(full, path, overwrite);
        return new OutputFile(full, overwrite);
    }

    /// <summary>Writes a whole text file (UTF-8) in one go.</summary>
    public static void WriteText(string path, string text, bool overwrite)
    {
        using var file = Create(path, overwrite);
        file.Stream.Write(System.Text.Encoding.UTF8.GetBytes(text));
        file.Commit();
    }

    /// <summary>Brings the content safely to the disk and gives the file its name.</summary>
    /// <exception cref="InputException">Another program took the name meanwhile.</exception>
    public void Commit()
    {
        Stream.Flush(flushToDisk: true);
        Stream.Dispose();
        RefuseTaken(Path, Path, overwrite);
        File.Move(temporary, Path, overwrite);
        committed = true;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        Stream.Dispose();
        if (!committed)
        {
            File.Delete(temporary);
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
            throw new IOException($"{path} can't be made in this folder.", failure);
        }
    }

    private static void RefuseTaken(string full, string shown, bool overwrite)
    {
        if (!overwrite && File.Exists(full))
        {
            throw new InputException($"{shown}: this file exists and was left as it is. Choose another name, or add --overwrite.");
        }
    }
}
