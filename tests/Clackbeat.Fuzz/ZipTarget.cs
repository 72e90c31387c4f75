using System.Globalization;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using Clackbeat.Records.Sharing;
using Clackbeat.Records.Tables;
using Clackbeat.Site;

namespace Clackbeat.Fuzz;

/// <summary>
/// Zip archives from strangers: a spreadsheet through the table reader, a shared record through its reader. The first byte of the
/// input says whether the rest is the archive, or its parts with a zero between them, which get right check sums.
/// </summary>
internal static class ZipTarget
{
    private const byte Between = 0;

    private static readonly string[] SheetParts =
    [
        "xl/workbook.xml", "xl/_rels/workbook.xml.rels", "xl/worksheets/sheet1.xml", "xl/sharedStrings.xml", "xl/styles.xml", "[Content_Types].xml",
    ];

    private static readonly string[] SharedParts = ["manifest.json", "record.csv", "site.toml", "calibration.toml"];

    // A shared record is read from the disk.
    private static readonly string File = Scratch.File("any.zip");

    private static readonly double[] TimesS = new double[512];
    private static readonly double[] PressuresPa = new double[512];

    public static void RunSheet(byte[] input)
    {
        byte[] file = Archive(input, SheetParts, Plain);
        try
        {
            using var trace = TraceFile.Open(() => new MemoryStream(file, writable: false), "any.xlsx", TraceColumns.Default);
            while (trace.Read(TimesS, PressuresPa) > 0)
            {
                // A row that was read is a time and a pressure.
                BrokenPromiseException.Unless(double.IsFinite(TimesS[0]) && double.IsFinite(PressuresPa[0]), "a sample is no number");
            }
        }
        catch (InputException)
        {
            // A spreadsheet that is refused in words.
        }
    }

    public static void RunShared(byte[] input)
    {
        System.IO.File.WriteAllBytes(File, Archive(input, SharedParts, WithSums));
        try
        {
            if (!SharedRecord.Is(File))
            {
                return;
            }

            SharedRecord.Open(File).Read(samples =>
            {
                foreach (Records.Samples.Sample sample in samples)
                {
                    BrokenPromiseException.Unless(double.IsFinite(sample.TimeS) && double.IsFinite(sample.PressurePa), "a sample is no number");
                }
            });
        }
        catch (InputException)
        {
            // An archive that is refused in words.
        }
    }

    /// <summary>Parts as an input that stands for an archive of them.</summary>
    public static byte[] Parts(params string[] parts) => [1, .. Encoding.UTF8.GetBytes(string.Join((char)Between, parts))];

    /// <summary>The archive that such an input stands for, as an input of its own.</summary>
    public static byte[] Whole(byte[] parts, bool isSheet) => [0, .. Archive(parts, isSheet ? SheetParts : SharedParts, isSheet ? Plain : WithSums)];

    private static byte[] Archive(byte[] input, string[] names, Func<byte[][], byte[][]> mend)
    {
        if (input.Length == 0 || (input[0] & 1) == 0)
        {
            return input[Math.Min(1, input.Length)..];
        }

        byte[] rest = input[1..];
        List<byte[]> pieces = [];
        foreach (Range piece in rest.AsSpan().Split(Between))
        {
            pieces.Add(rest[piece]);
        }

        byte[][] parts = mend([.. pieces.Take(names.Length)]);
        using var archive = new MemoryStream();
        using (var zip = new ZipArchive(archive, ZipArchiveMode.Create, leaveOpen: true))
        {
            for (int i = 0; i < parts.Length; i++)
            {
                using Stream part = zip.CreateEntry(names[i], CompressionLevel.NoCompression).Open();
                part.Write(parts[i]);
            }
        }

        return archive.ToArray();
    }

    private static byte[][] Plain(byte[][] parts) => parts;

    // In the manifest "@1" stands for the hash of the first part after it and #1 for its length, and so on.
    private static byte[][] WithSums(byte[][] parts)
    {
        string manifest = Encoding.UTF8.GetString(parts[0]);
        for (int i = 1; i < parts.Length; i++)
        {
            manifest = manifest.Replace($"@{i}", Convert.ToHexStringLower(SHA256.HashData(parts[i])), StringComparison.Ordinal)
                .Replace($"#{i}", parts[i].Length.ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal);
        }

        return [Encoding.UTF8.GetBytes(manifest), .. parts[1..]];
    }
}
