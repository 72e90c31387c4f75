using System.Globalization;
using Clackbeat.Site;

namespace Clackbeat.Recording.Collecting;

/// <summary>A lone logger's card, or a folder with its files (protocol SPEC §10).</summary>
/// <param name="root">The card's root.</param>
public sealed class CardSource(string root) : IBurstSource
{
    private const string Ending = ".cbf";

    // A day at 5000 samples a second; a longer file is no burst.
    private const long MostBytes = 2L << 30;

    /// <inheritdoc/>
    public string? Device => null;

    /// <inheritdoc/>
    public IEnumerable<BurstEntry> List(CancellationToken cancellation) => Directory
        .EnumerateFiles(root, "*", SearchOption.AllDirectories)
        .Where(path => path.EndsWith(Ending, StringComparison.OrdinalIgnoreCase))
        .Select(path => (Path: path, Number: NumberOf(path)))
        .Where(file => file.Number > 0)
        .OrderBy(file => file.Number)
        .Select(file => new BurstEntry(file.Number, new FileInfo(file.Path).Length, file.Path));

    /// <inheritdoc/>
    public byte[] Read(BurstEntry entry, CancellationToken cancellation) => entry.Bytes <= MostBytes
        ? File.ReadAllBytes(entry.Place)
        : throw InputException.Of("burst.too-long", ("file", entry.Place));

    /// <inheritdoc/>
    public bool Delete(BurstEntry entry)
    {
        File.Delete(entry.Place);
        return true;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        // A folder needs no closing.
    }

    // STATE-A and STATE-B have no number and are the logger's own.
    private static uint NumberOf(string path) => uint.TryParse(
        Path.GetFileNameWithoutExtension(path), NumberStyles.None, CultureInfo.InvariantCulture, out uint number) ? number : 0;
}
