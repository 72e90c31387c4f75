using System.Globalization;
using System.Text;

namespace Clackbeat.Unattended.Intake;

/// <summary>The files of a folder that were taken: a line a file, added at the end, so that a crash costs the last line at most.</summary>
internal sealed class TakenFiles
{
    private readonly string _path;
    private readonly Dictionary<string, FileState> _byName = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> _byHash = new(StringComparer.Ordinal);

    private TakenFiles(string path) => _path = path;

    /// <summary>Reads them; a line that can't be read is passed over, and its file taken once more, which stores nothing twice.</summary>
    public static TakenFiles Open(string path)
    {
        var files = new TakenFiles(path);
        foreach (string line in File.Exists(path) ? File.ReadAllLines(path) : [])
        {
            // The name comes last, since it may hold tabs itself.
            if (line.Split('\t', 4) is [{ Length: 64 } hash, var bytes, var ticks, { Length: > 0 } name]
                && long.TryParse(bytes, CultureInfo.InvariantCulture, out long length) && long.TryParse(ticks, CultureInfo.InvariantCulture, out long modified))
            {
                files.Note(name, new FileState(length, modified), hash);
            }
        }

        return files;
    }

    /// <summary>Whether a file was taken as it is.</summary>
    public bool Has(string name, FileState state) => _byName.TryGetValue(name, out FileState taken) && taken == state;

    /// <summary>The name under which a content was taken; null for none.</summary>
    public string? NameOf(string hash) => _byHash.GetValueOrDefault(hash);

    /// <summary>Remembers one.</summary>
    public void Add(string name, FileState state, string hash)
    {
        // A line that a crash cut is closed first.
        File.AppendAllText(_path, string.Create(CultureInfo.InvariantCulture, $"{(IsCut() ? "\n" : "")}{hash}\t{state.Bytes}\t{state.ModifiedTicks}\t{name}\n"), new UTF8Encoding(false));
        Note(name, state, hash);
    }

    private bool IsCut()
    {
        if (!File.Exists(_path))
        {
            return false;
        }

        using FileStream file = File.OpenRead(_path);
        if (file.Length == 0)
        {
            return false;
        }

        file.Seek(-1, SeekOrigin.End);
        return file.ReadByte() != '\n';
    }

    private void Note(string name, FileState state, string hash) => (_byName[name], _byHash[hash]) = (state, _byHash.GetValueOrDefault(hash, name));
}
