using System.Globalization;
using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;
using Clackbeat.Site;

namespace Clackbeat.Recording.Collecting;

/// <summary>A lone logger's card, or a folder with its files (protocol SPEC §10).</summary>
/// <param name="root">The card's root.</param>
public sealed class CardSource(string root) : IBurstSource
{
    private const string Ending = ".cbf";
    private const string ScheduleName = "SCHEDULE.CBF";

    private static readonly string[] StateNames = ["STATE-A.CBF", "STATE-B.CBF"];

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
    public ScheduleOutcome SetSchedule(SetSchedule schedule, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(schedule);
        var writer = new FrameWriter();
        schedule.Write(writer);
        byte[] frame = writer.Buffer[..writer.Length];
        string path = Path.Combine(StateFolder(), ScheduleName);
        if (File.Exists(path) && File.ReadAllBytes(path).AsSpan().SequenceEqual(frame))
        {
            return ScheduleOutcome.Known;
        }

        File.WriteAllBytes(path, frame);
        return ScheduleOutcome.Taken;
    }

    // Beside the state files, which may lie a folder deeper.
    private string StateFolder() => Directory.EnumerateFiles(root, "*", SearchOption.AllDirectories)
        .Where(path => StateNames.Contains(Path.GetFileName(path), StringComparer.OrdinalIgnoreCase))
        .Select(Path.GetDirectoryName).FirstOrDefault() ?? root;

    /// <inheritdoc/>
    public void Dispose()
    {
        // A folder needs no closing.
    }

    // STATE-A, STATE-B and the like have no number and are the logger's own.
    private static uint NumberOf(string path) => uint.TryParse(
        Path.GetFileNameWithoutExtension(path), NumberStyles.None, CultureInfo.InvariantCulture, out uint number) ? number : 0;
}
