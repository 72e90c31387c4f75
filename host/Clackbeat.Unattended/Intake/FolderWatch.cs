using System.Security.Cryptography;
using Clackbeat.Unattended.Surroundings;
using Clackbeat.Words;

namespace Clackbeat.Unattended.Intake;

/// <summary>
/// Takes each file that comes into a folder, once it has stopped growing. What was taken is remembered by a hash of its content in a file of the
/// folder itself; what can't be used is moved aside with the reason beside it.
/// </summary>
/// <param name="folder">The folder; folders in it are not looked at.</param>
/// <param name="take">Takes a file; says why it can't be used, null where it was taken. What may pass is thrown.</param>
/// <param name="time">The calendar.</param>
/// <param name="tell">Told what a keeper should know.</param>
public sealed class FolderWatch(string folder, Func<string, string?> take, TimeProvider time, Action<LogNews> tell)
{
    /// <summary>Folder for what can't be used.</summary>
    public const string Aside = "unreadable";

    /// <summary>How long a file's size and time must stay as they are.</summary>
    internal static readonly TimeSpan Settled = TimeSpan.FromSeconds(10);

    private static readonly string[] Unfinished = [".part", ".tmp", ".crdownload", ".filepart", "~"];
    private readonly Dictionary<string, (FileState State, DateTimeOffset Since)> _growing = new(StringComparer.Ordinal);
    private readonly HashSet<string> _late = new(StringComparer.Ordinal);
    private readonly TakenFiles _taken = TakenFiles.Open(Path.Combine(folder, ".clackbeat-taken"));

    /// <summary>Looks once, and takes what is whole.</summary>
    /// <param name="stop">Ends the work between two files.</param>
    public void Look(CancellationToken stop)
    {
        foreach (FileInfo file in Files().Where(IsWhole))
        {
            if (stop.IsCancellationRequested)
            {
                return;
            }

            try
            {
                Take(file);
                _late.Remove(file.Name);
            }
            catch (Exception fault) when (StoreGate.IsFault(fault))
            {
                if (_late.Add(file.Name))
                {
                    tell(new LogNews(null, Phrases.Say("logging.watch-later", ("file", file.Name), ("why", fault.Message)), true));
                }
            }
        }
    }

    private FileInfo[] Files() =>
    [
        .. new DirectoryInfo(folder).EnumerateFiles()
            .Where(f => f.Name[0] != '.' && !Unfinished.Any(end => f.Name.EndsWith(end, StringComparison.OrdinalIgnoreCase)))
            .OrderBy(f => f.LastWriteTimeUtc).ThenBy(f => f.Name, StringComparer.Ordinal),
    ];

    private bool IsWhole(FileInfo file)
    {
        var state = new FileState(file.Length, file.LastWriteTimeUtc.Ticks);
        if (_taken.Has(file.Name, state))
        {
            return false;
        }

        DateTimeOffset now = time.GetUtcNow();
        if (!_growing.TryGetValue(file.Name, out (FileState State, DateTimeOffset Since) seen) || seen.State != state || seen.Since > now)
        {
            _growing[file.Name] = (state, now);
            return false;
        }

        return now - seen.Since >= Settled && file.Length > 0;
    }

    private void Take(FileInfo file)
    {
        var state = new FileState(file.Length, file.LastWriteTimeUtc.Ticks);
        string hash = HashOf(file.FullName);
        if (_taken.NameOf(hash) is { } earlier)
        {
            tell(new LogNews(null, Phrases.Say("logging.watch-known", ("file", file.Name), ("earlier", earlier)), false));
        }
        else if (take(file.FullName) is { } why)
        {
            PutAside(file, why);
            _growing.Remove(file.Name);
            return;
        }

        _taken.Add(file.Name, state, hash);
        _growing.Remove(file.Name);
    }

    private void PutAside(FileInfo file, string why)
    {
        string aside = Directory.CreateDirectory(Path.Combine(folder, Aside)).FullName;
        string place = Path.Combine(aside, file.Name);
        for (int i = 2; File.Exists(place); i++)
        {
            place = Path.Combine(aside, $"{Path.GetFileNameWithoutExtension(file.Name)}-{i}{file.Extension}");
        }

        File.WriteAllText(place + ".why.txt", why + "\n");
        File.Move(file.FullName, place);
        tell(new LogNews(null, Phrases.Say("logging.watch-aside", ("file", file.Name)), true));
    }

    private static string HashOf(string path)
    {
        using FileStream content = File.OpenRead(path);
        return Convert.ToHexStringLower(SHA256.HashData(content));
    }
}

/// <summary>By what a change of a file shows.</summary>
internal readonly record struct FileState(long Bytes, long ModifiedTicks);
