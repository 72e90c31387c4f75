using System.Globalization;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Time;
using Clackbeat.Season.Schedule;
using Clackbeat.Site;
using Clackbeat.Unattended.Settings;

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

    private readonly string _pending;
    private readonly string _aside;

    /// <summary>Makes the folders of a ram.</summary>
    /// <param name="root">Folder of all rams' raw bursts.</param>
    /// <param name="ram">Name of the ram.</param>
    public RawFolder(string root, string ram)
    {
        (Root, Ram, Name) = (root, ram, FolderName.Of(ram));
        _pending = Path.Combine(root, Name, "pending");
        _aside = Path.Combine(root, Name, "unreadable");
        FolderSync.Create(_pending);
    }

    public string Root { get; }

    public string Ram { get; }

    /// <summary>Name of the ram's folder.</summary>
    public string Name { get; }

    /// <summary>The file of a burst that begins now; a calendar that was set back may bring the same second twice.</summary>
    public string Begin(DateTimeOffset startUtc, bool extra)
    {
        string stem = startUtc.UtcDateTime.ToString(TimeForm, CultureInfo.InvariantCulture) + (extra ? "-extra" : "");
        string name = Free(stem, n => File.Exists(Path.Combine(_pending, n + Ending)) || File.Exists(Path.Combine(_pending, n + Unfinished)) || File.Exists(PlaceOf(n + Ending)));
        return Path.Combine(_pending, name + Unfinished);
    }

    /// <summary>A burst is recorded: from now on it is one to be stored.</summary>
    /// <returns>Its file.</returns>
    public string Finish(string part)
    {
        string whole = FreeFile(part[..^".part".Length]);
        File.Move(part, whole);
        FolderSync.Flush(_pending);
        return whole;
    }

    /// <summary>
    /// What a crash or a failing disk left half recorded is a burst that ended early; what ended before its first block was on
    /// the disk holds no sample and goes. Only while no burst is being recorded.
    /// </summary>
    /// <returns>How many were found.</returns>
    public int Recover()
    {
        int found = 0;
        foreach (string part in Directory.GetFiles(_pending, "*" + Unfinished))
        {
            if (HasBlock(part))
            {
                Finish(part);
                found++;
            }
            else
            {
                File.Delete(part);
            }
        }

        return found;
    }

    /// <summary>When a burst began, by its name; null for a name that isn't of this program.</summary>
    public static DateTimeOffset? StartOf(string path)
    {
        string name = Path.GetFileName(path);
        int length = "yyyyMMddTHHmmssZ".Length;
        return name.Length >= length && DateTimeOffset.TryParseExact(
            name[..length], TimeForm, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset start)
            ? start
            : null;
    }

    /// <summary>A burst that waits gets the name of its true time: from then on the name is what says when it began.</summary>
    /// <param name="pending">Its file, named by a calendar that could not be right.</param>
    /// <param name="startUtc">When it began.</param>
    public void Redate(string pending, DateTimeOffset startUtc)
    {
        string mark = Path.GetFileName(pending)["yyyyMMddTHHmmssZ".Length..];
        File.Move(pending, FreeFile(Path.Combine(_pending, startUtc.UtcDateTime.ToString(TimeForm, CultureInfo.InvariantCulture) + mark)));
        FolderSync.Flush(_pending);
    }

    /// <summary>When a burst began, where its recording's own calendar could not be right and its name tells; null otherwise.</summary>
    public static DateTimeOffset? TrueStartOf(string pending)
    {
        using FileStream file = new(pending, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        return new BlockReader(file, pending).Next() is { Head.UtcMicroseconds: long utc }
            && !(HostCalendar.IsDate(utc) && CalendarSense.CanBe(DateTimeOffset.UnixEpoch.AddTicks(utc * TimeSpan.TicksPerMicrosecond)))
                ? StartOf(pending)
                : null;
    }

    /// <summary>Bursts that are recorded and not yet known to be stored, oldest first.</summary>
    public IReadOnlyList<string> Pending() => [.. Directory.GetFiles(_pending, "*" + Ending).Order(StringComparer.Ordinal)];

    /// <summary>Where a burst's file comes to lie, from the root with forward slashes: the name the store keeps.</summary>
    public string SourceOf(string pending) => Path.GetRelativePath(Root, PlaceFor(pending)).Replace(Path.DirectorySeparatorChar, '/');

    /// <summary>The store has it: to its day's folder.</summary>
    public string Settle(string pending)
    {
        string place = PlaceFor(pending);
        string day = Path.GetDirectoryName(place)!;

        // The day's own entry first: a file in a folder that isn't there after a cut of power is lost.
        FolderSync.Create(day);
        File.Move(pending, place);
        FolderSync.Flush(day);
        FolderSync.Flush(_pending);
        return place;
    }

    /// <summary>Nothing can be read from it: kept for a person to look at, and out of the way.</summary>
    public string SetAside(string pending)
    {
        FolderSync.Create(_aside);
        string place = FreeFile(Path.Combine(_aside, Path.GetFileName(pending)));
        File.Move(pending, place);
        FolderSync.Flush(_aside);
        FolderSync.Flush(_pending);
        return place;
    }

    /// <summary>When the newest burst began; null before the first.</summary>
    public DateTimeOffset? Newest() => Days().SelectMany(d => Directory.EnumerateFiles(d, "*" + Ending)).Concat(Pending())
        .Select(StartOf).Max();

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

    // The start of a file may be damaged and the rest not.
    private static bool HasBlock(string part)
    {
        try
        {
            using FileStream file = new(part, FileMode.Open, FileAccess.Read);
            return new BlockReader(file, part).Next() is not null;
        }
        catch (InputException)
        {
            // A newer program's: no business of this one to remove.
            return true;
        }
    }

    private string PlaceFor(string pending) => FreeFile(PlaceOf(Path.GetFileName(pending)));

    // A name may be taken by files that somebody copied back, or by a calendar that was set back; neither may be lost.
    private static string FreeFile(string path) =>
        Path.Combine(Path.GetDirectoryName(path)!, Free(Path.GetFileName(path)[..^Ending.Length], n => File.Exists(Path.Combine(Path.GetDirectoryName(path)!, n + Ending))) + Ending);

    private static string Free(string stem, Func<string, bool> isTaken)
    {
        string name = stem;
        for (int again = 2; isTaken(name); again++)
        {
            name = string.Create(CultureInfo.InvariantCulture, $"{stem}-{again}");
        }

        return name;
    }

    private string PlaceOf(string name) => Path.Combine(Root, Name, DayOf(name), name);

    private static string DayOf(string name) =>
        (StartOf(name) ?? DateTimeOffset.UnixEpoch).UtcDateTime.ToString(DayForm, CultureInfo.InvariantCulture);
}
