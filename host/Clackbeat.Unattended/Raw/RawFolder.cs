using System.Collections.Frozen;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Clackbeat.Recording.Files;
using Clackbeat.Season.Schedule;

namespace Clackbeat.Unattended.Raw;

/// <summary>
/// The raw bursts of one ram on the disk. A burst is recorded under pending/ with the ending .part, loses that ending when it is
/// whole, and moves to its day's folder (UTC) when the season store has it. So after a crash the names alone tell what is still to
/// be done, and each step may be done again.
/// </summary>
internal sealed class RawFolder
{
    public const string Ending = ".cbrec";
    private const string Unfinished = Ending + ".part";
    private const string TimeForm = "yyyyMMdd'T'HHmmss'Z'";
    private const string DayForm = "yyyy-MM-dd";

    // Names of devices on Windows, whatever folder they stand in (Microsoft, "Naming Files, Paths, and Namespaces").
    private static readonly FrozenSet<string> Devices =
    [
        "con", "prn", "aux", "nul", .. Enumerable.Range(0, 10).SelectMany(i => (string[])[$"com{i}", $"lpt{i}"]),
    ];

    private readonly string _pending;
    private readonly string _aside;

    /// <summary>Makes the folders of a ram.</summary>
    /// <param name="root">Folder of all rams' raw bursts.</param>
    /// <param name="ram">Name of the ram.</param>
    public RawFolder(string root, string ram)
    {
        (Root, Ram, Name) = (root, ram, NameOf(ram));
        _pending = Path.Combine(root, Name, "pending");
        _aside = Path.Combine(root, Name, "unreadable");
        Directory.CreateDirectory(_pending);
    }

    public string Root { get; }

    public string Ram { get; }

    /// <summary>Name of the ram's folder.</summary>
    public string Name { get; }

    /// <summary>A ram's name as a folder's: small letters, digits and hyphens; a name that holds others, or is a device's, gets a mark of its own.</summary>
    public static string NameOf(string ram)
    {
        string plain = string.Join('-', new string([.. ram.ToLowerInvariant().Select(c => char.IsAsciiLetterOrDigit(c) ? c : ' ')])
            .Split(' ', StringSplitOptions.RemoveEmptyEntries));
        plain = plain.Length > 40 ? plain[..40].TrimEnd('-') : plain;
        bool same = plain.Length > 0 && !Devices.Contains(plain) && ram.ToLowerInvariant().Replace(' ', '-') == plain;
        return same ? plain : $"{(plain.Length > 0 ? plain : "ram")}-{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(ram)))[..4]}";
    }

    /// <summary>The file of a burst that begins now; a calendar that was set back may bring the same second twice.</summary>
    public string Begin(DateTimeOffset startUtc, bool extra)
    {
        string stem = startUtc.UtcDateTime.ToString(TimeForm, CultureInfo.InvariantCulture) + (extra ? "-extra" : "");
        string name = stem;
        for (int again = 2; File.Exists(Path.Combine(_pending, name + Ending)) || File.Exists(Path.Combine(_pending, name + Unfinished)) || File.Exists(PlaceOf(name + Ending)); again++)
        {
            name = string.Create(CultureInfo.InvariantCulture, $"{stem}-{again}");
        }

        return Path.Combine(_pending, name + Unfinished);
    }

    /// <summary>A burst is recorded: from now on it is one to be stored.</summary>
    public void Finish(string part)
    {
        File.Move(part, part[..^".part".Length]);
        FolderSync.Flush(_pending);
    }

    /// <summary>What a crash left half recorded is a burst that ended early; what ended before its first block holds no sample.</summary>
    public int Recover()
    {
        int found = 0;
        foreach (string part in Directory.GetFiles(_pending, "*" + Unfinished))
        {
            if (!BlockReader.IsRecording(part))
            {
                File.Delete(part);
                continue;
            }

            Finish(part);
            found++;
        }

        return found;
    }

    /// <summary>Bursts that are recorded and not yet known to be stored, oldest first.</summary>
    public IReadOnlyList<string> Pending() => [.. Directory.GetFiles(_pending, "*" + Ending).Order(StringComparer.Ordinal)];

    /// <summary>Where a burst's file comes to lie, from the root with forward slashes: the name the store keeps.</summary>
    public string SourceOf(string pending) => $"{Name}/{DayOf(Path.GetFileName(pending))}/{Path.GetFileName(pending)}";

    /// <summary>The store has it: to its day's folder.</summary>
    public string Settle(string pending)
    {
        string place = PlaceOf(Path.GetFileName(pending));
        string day = Path.GetDirectoryName(place)!;
        Directory.CreateDirectory(day);
        File.Move(pending, place);
        FolderSync.Flush(day);
        FolderSync.Flush(_pending);
        return place;
    }

    /// <summary>Nothing can be read from it: kept for a person to look at, and out of the way.</summary>
    public string SetAside(string pending)
    {
        Directory.CreateDirectory(_aside);
        string place = Path.Combine(_aside, Path.GetFileName(pending));
        File.Move(pending, place, overwrite: true);
        return place;
    }

    /// <summary>When the newest burst began; null before the first.</summary>
    public DateTimeOffset? Newest() => Days().SelectMany(d => Directory.EnumerateFiles(d, "*" + Ending)).Concat(Pending())
        .Select(f => StartOf(Path.GetFileName(f))).Max();

    /// <summary>The bursts in day folders, with what keeps them; the folders of days that are empty are removed.</summary>
    /// <param name="isPrecious">Tells whether the time of a burst makes it precious.</param>
    public IEnumerable<RawBurst> List(Func<DateTimeOffset, bool> isPrecious)
    {
        foreach (string day in Days())
        {
            bool kept = File.Exists(Path.Combine(day, "keep"));
            foreach (FileInfo file in new DirectoryInfo(day).EnumerateFiles("*" + Ending))
            {
                if (StartOf(file.Name) is { } start)
                {
                    yield return new RawBurst(file.FullName, Ram, start, file.Length, kept || isPrecious(start));
                }
            }
        }
    }

    /// <summary>Removes a burst, and its day's folder with the last one.</summary>
    public static void Remove(string path)
    {
        File.Delete(path);
        string day = Path.GetDirectoryName(path)!;
        if (!Directory.EnumerateFileSystemEntries(day).Any())
        {
            Directory.Delete(day);
        }
    }

    private IEnumerable<string> Days() => Directory.EnumerateDirectories(Path.Combine(Root, Name))
        .Where(d => DateOnly.TryParseExact(Path.GetFileName(d), DayForm, CultureInfo.InvariantCulture, DateTimeStyles.None, out _));

    private string PlaceOf(string name) => Path.Combine(Root, Name, DayOf(name), name);

    private static string DayOf(string name) =>
        (StartOf(name) ?? DateTimeOffset.UnixEpoch).UtcDateTime.ToString(DayForm, CultureInfo.InvariantCulture);

    private static DateTimeOffset? StartOf(string name)
    {
        int length = "yyyyMMddTHHmmssZ".Length;
        return name.Length >= length && DateTimeOffset.TryParseExact(
            name[..length], TimeForm, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset start)
            ? start
            : null;
    }
}
