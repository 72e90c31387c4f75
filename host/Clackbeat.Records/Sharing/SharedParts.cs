using System.IO.Compression;
using Clackbeat.Site;
using Clackbeat.Site.Facts;

namespace Clackbeat.Records.Sharing;

/// <summary>
/// The parts of an archive from a stranger. Nothing is unpacked to disk under a name of the archive's; parts are streams of a
/// checked length.
/// </summary>
internal sealed class SharedParts
{
    // The end record of a zip: its signature, and where it holds the number of entries (APPNOTE.TXT 4.3.16).
    private const int EndRecordBytes = 22;
    private const int EntriesAt = 10;
    private const int LongestComment = ushort.MaxValue;

    private readonly string _path;
    private readonly Dictionary<string, long> _lengths;

    private SharedParts(string path, Dictionary<string, long> lengths) => (_path, _lengths) = (path, lengths);

    /// <summary>Whether a file is a zip archive with a manifest at its root.</summary>
    public static bool IsShared(string path)
    {
        if (!File.Exists(path) || EntriesOf(path) is not (> 0 and var entries))
        {
            return false;
        }

        if (entries > SharedFormat.MostEntries)
        {
            // Some other archive, most likely; too many entries to look through.
            return false;
        }

        try
        {
            using ZipArchive zip = ZipFile.OpenRead(path);
            return zip.Entries.Any(e => e.FullName == SharedFormat.Manifest);
        }
        catch (InvalidDataException)
        {
            return false;
        }
    }

    /// <summary>Looks an archive through before anything of it is unpacked.</summary>
    /// <exception cref="InputException">It holds what no shared record holds.</exception>
    public static SharedParts Open(string path)
    {
        try
        {
            using ZipArchive zip = ZipFile.OpenRead(path);
            var lengths = new Dictionary<string, long>(StringComparer.OrdinalIgnoreCase);
            foreach (ZipArchiveEntry entry in zip.Entries)
            {
                Check(path, entry);
                if (!lengths.TryAdd(entry.FullName, entry.Length))
                {
                    throw Refused(path, Fact.Of("shared.two-parts", ("part", entry.FullName)));
                }
            }

            return new SharedParts(path, lengths);
        }
        catch (InvalidDataException damaged)
        {
            throw InputException.Of(damaged, "shared.cant-open", ("file", path));
        }
    }

    /// <summary>Whether a part is there.</summary>
    public bool Has(string name) => _lengths.ContainsKey(name);

    /// <summary>Opens a part.</summary>
    /// <exception cref="InputException">It isn't there or can't be unpacked.</exception>
    public CheckedStream Read(string name)
    {
        ZipArchive? zip = null;
        try
        {
            zip = ZipFile.OpenRead(_path);
            ZipArchiveEntry entry = zip.Entries.FirstOrDefault(e => e.FullName == name)
                ?? throw Refused(_path, Fact.Of("shared.part-missing", ("part", name)));
            var stream = new CheckedStream(entry.Open(), zip, entry.Length, $"{name} inside {_path}");
            zip = null;
            return stream;
        }
        catch (InvalidDataException damaged)
        {
            throw InputException.Of(damaged, "shared.part-locked", ("part", name), ("file", _path));
        }
        finally
        {
            zip?.Dispose();
        }
    }

    /// <summary>Reads a small part whole.</summary>
    public byte[] ReadSmall(string name)
    {
        using CheckedStream part = Read(name);
        byte[] bytes = new byte[part.Length];
        int count = part.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
        return count == bytes.Length && part.ReadByte() < 0 ? bytes : throw Refused(_path, Fact.Of("shared.part-short", ("part", name)));
    }

    /// <summary>The message of every refusal.</summary>
    public static InputException Refused(string path, Fact why, Exception? cause = null) =>
        new(Fact.Of("shared.unreadable", ("file", path), ("why", why)), cause);

    private static void Check(string path, ZipArchiveEntry entry)
    {
        string name = entry.FullName;
        if (name.AsSpan().IndexOfAny("/\\:") >= 0 || name.Contains("..", StringComparison.Ordinal) || name.Any(char.IsControl))
        {
            throw Refused(path, Fact.Of("shared.part-outside", ("part", Shown(name))));
        }

        bool isRecord = name == SharedFormat.Record;
        if (entry.Length > (isRecord ? SharedFormat.LargestRecord : SmallFile.LargestBytes))
        {
            throw Refused(path, Fact.Of("shared.part-large", ("part", Shown(name)), ("size_mb", entry.Length / 1e6)));
        }

        if (isRecord && entry.Length > SharedFormat.LargestRatio * Math.Max(1, entry.CompressedLength) + SmallFile.LargestBytes)
        {
            throw Refused(path, Fact.Of("shared.part-unpacks", ("part", name)));
        }
    }

    private static string Shown(string name) => new([.. name.Where(c => !char.IsControl(c)).Take(60)]);

    // Read before the library does, which would hold every entry of a hostile archive in memory.
    private static int EntriesOf(string path)
    {
        using FileStream file = File.OpenRead(path);
        byte[] head = new byte[4];
        if (file.ReadAtLeast(head, head.Length, throwOnEndOfStream: false) < head.Length || !head.AsSpan().SequenceEqual("PK\u0003\u0004"u8))
        {
            return 0;
        }

        long tailBytes = Math.Min(file.Length, EndRecordBytes + LongestComment);
        file.Seek(-tailBytes, SeekOrigin.End);
        byte[] tail = new byte[tailBytes];
        file.ReadExactly(tail);
        int at = tail.AsSpan().LastIndexOf("PK\u0005\u0006"u8);
        return at >= 0 && at + EndRecordBytes <= tail.Length ? BitConverter.ToUInt16(tail, at + EntriesAt) : 0;
    }
}
