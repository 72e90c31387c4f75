using System.Globalization;
using System.Text.Json;
using Clackbeat.Unattended.Raw;

namespace Clackbeat.Unattended.Alerts;

/// <summary>A note that somebody has seen an alert: a file beside the book, since only the running log writes the book itself.</summary>
/// <param name="Alert">Number of the alert.</param>
/// <param name="AtUtc">When it was left.</param>
/// <param name="Words">What they say.</param>
public sealed record SeenNote(int Alert, DateTimeOffset AtUtc, string Words)
{
    /// <summary>False for a note that is damaged; it is removed with the others.</summary>
    public bool IsReadable { get; private init; } = true;

    /// <summary>Leaves one; the running log, or the next one, takes it into the book.</summary>
    /// <param name="folder">The log's folder.</param>
    /// <param name="number">The alert.</param>
    /// <param name="nowUtc">Now.</param>
    /// <param name="words">What they say.</param>
    public static void Leave(string folder, int number, DateTimeOffset nowUtc, string words)
    {
        Directory.CreateDirectory(FolderIn(folder));
        AtomicFile.Write(PathOf(folder, number), JsonSerializer.Serialize(new Form(nowUtc, words)));
    }

    /// <summary>All notes that lie there.</summary>
    /// <param name="folder">The log's folder.</param>
    public static IReadOnlyList<SeenNote> In(string folder) => Directory.Exists(FolderIn(folder))
        ? [.. Directory.GetFiles(FolderIn(folder)).Where(f => Number(f) is not null).Select(f => Read(f, Number(f)!.Value))]
        : [];

    /// <summary>Takes notes away.</summary>
    /// <param name="folder">The log's folder.</param>
    /// <param name="notes">The notes.</param>
    public static void Remove(string folder, IEnumerable<SeenNote> notes)
    {
        foreach (SeenNote note in notes)
        {
            File.Delete(PathOf(folder, note.Alert));
        }
    }

    private static SeenNote Read(string path, int number)
    {
        try
        {
            return JsonSerializer.Deserialize<Form>(File.ReadAllText(path)) is { } form ? new SeenNote(number, form.AtUtc, form.Words) : Damaged(number);
        }
        catch (JsonException)
        {
            return Damaged(number);
        }
    }

    private static SeenNote Damaged(int number) => new(number, default, "") { IsReadable = false };

    private static string FolderIn(string folder) => Path.Combine(folder, "seen");

    private static string PathOf(string folder, int number) => Path.Combine(FolderIn(folder), number.ToString(CultureInfo.InvariantCulture));

    private static int? Number(string path) => int.TryParse(Path.GetFileName(path), CultureInfo.InvariantCulture, out int number) ? number : null;

    private sealed record Form(DateTimeOffset AtUtc, string Words);
}
