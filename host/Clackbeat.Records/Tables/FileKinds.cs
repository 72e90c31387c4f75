using System.Text;
using Clackbeat.Site;
using Clackbeat.Site.Facts;

namespace Clackbeat.Records.Tables;

/// <summary>Tells by its first bytes what a file seems to be, so that one that is no table is refused by its name.</summary>
internal static class FileKinds
{
    private const int HeadBytes = 4096;

    // First bytes by each format's own specification; ASCII unless escaped.
    private static readonly (string Begins, Fact What)[] Kinds =
    [
        ("%PDF", Fact.Of("kind.pdf-document")),
        ("PAR1", Fact.Of("kind.parquet")),
        ("SQLite format 3\0", Fact.Of("kind.database")),
        ("\u0089PNG", Fact.Of("kind.picture")),
        ("\u00FF\u00D8\u00FF", Fact.Of("kind.picture")),
        ("GIF8", Fact.Of("kind.picture")),
        ("RIFF", Fact.Of("kind.video")),
        ("OggS", Fact.Of("kind.sound")),
        ("\u001F\u008B", Fact.Of("kind.gzip")),
        ("PK\u0003\u0004", Fact.Of("kind.zip")),
        ("7z\u00BC\u00AF", Fact.Of("kind.seven-zip")),
        ("MATLAB 5.0", Fact.Of("kind.matlab")),
        ("\u0089HDF", Fact.Of("kind.hdf5")),
        ("TDSm", Fact.Of("kind.tdms")),
        ("\u007FELF", Fact.Of("kind.program")),
        ("MZ", Fact.Of("kind.program")),
        ("{", Fact.Of("kind.json")),
        ("<!DOCTYPE", Fact.Of("kind.web-page")),
        ("<html", Fact.Of("kind.web-page")),
        ("<?xml", Fact.Of("kind.xml")),
        ("[site]", Fact.Of("kind.site-file")),
        ("[supply]", Fact.Of("kind.site-file")),
    ];

    /// <summary>Whether it is a spreadsheet of the usual program: a zip that holds a workbook, or the older binary form.</summary>
    public static bool IsSpreadsheet(Func<Stream> open)
    {
        string head = Head(open);
        if (head.StartsWith("\u00D0\u00CF\u0011\u00E0", StringComparison.Ordinal))
        {
            return true;
        }

        if (!head.StartsWith("PK\u0003\u0004", StringComparison.Ordinal))
        {
            return false;
        }

        try
        {
            using Stream stream = open();
            using var zip = new System.IO.Compression.ZipArchive(stream);
            return zip.GetEntry("xl/workbook.xml") is not null;
        }
        catch (InvalidDataException)
        {
            return false;
        }
    }

    /// <summary>The same file, once it was looked at and holds text.</summary>
    /// <exception cref="InputException">It is something else; the message says what it seems to be.</exception>
    public static Func<Stream> Text(Func<Stream> open, string path)
    {
        string head = Head(open);
        bool utf16 = head.StartsWith("\u00FF\u00FE", StringComparison.Ordinal) || head.StartsWith("\u00FE\u00FF", StringComparison.Ordinal);
        Fact? what = Array.Find(Kinds, k => head.TrimStart().StartsWith(k.Begins, StringComparison.OrdinalIgnoreCase)).What
            ?? (!utf16 && head.Contains('\0', StringComparison.Ordinal) ? Fact.Of("kind.binary") : null);
        return what is null
            ? open
            : throw InputException.Of("table.other-kind", ("file", path), ("what", what));
    }

    // Bytes as characters, so that they can be compared as text.
    private static string Head(Func<Stream> open)
    {
        using Stream stream = open();
        byte[] head = new byte[HeadBytes];
        int count = stream.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
        return Encoding.Latin1.GetString(head, 0, count);
    }
}
