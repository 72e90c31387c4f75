using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;

namespace Clackbeat.Records.Tests.Sharing;

/// <summary>Archives made by hand from docs/shared-record.md, not by the program's writer, sound or with something wrong.</summary>
internal static class Archives
{
    public const string Site = """
        [site]
        name = "A shared ram"
        [supply]
        head = "2 m"
        [drive_pipe]
        material = "steel"
        length = "12 m"
        bore = "50 mm"
        wall = "4 mm"
        [delivery]
        head = "12 m"
        [sensor]
        range = "0 to 10 bar"
        """;

    public const string Record = "t_s,p_kPa\n0,1\n0.001,2.5\n0.002,-3\n";

    /// <summary>The parts of a sound archive.</summary>
    public static Dictionary<string, byte[]> Sound() => new()
    {
        ["record.csv"] = Encoding.UTF8.GetBytes(Record),
        ["site.toml"] = Encoding.UTF8.GetBytes(Site),
        ["LICENCE.txt"] = "CC0-1.0\n"u8.ToArray(),
        ["manifest.json"] = Encoding.UTF8.GetBytes(Manifest(Encoding.UTF8.GetBytes(Record))),
    };

    public static string Manifest(byte[] record, int version = 1) => $$"""
        {
          "format": "clackbeat-shared-record",
          "version": {{version}},
          "program": "by hand",
          "licence": "CC0-1.0",
          "place_left_out": true,
          "started_utc": "2026-04-02T10:00:00.000Z",
          "record": { "file": "record.csv", "bytes": {{record.Length}}, "sha256": "{{Hash(record)}}" },
          "site": { "file": "site.toml", "bytes": {{Encoding.UTF8.GetByteCount(Site)}}, "sha256": "{{Hash(Encoding.UTF8.GetBytes(Site))}}" },
          "calibration": null,
          "bucket_tests": [ { "outlet": "waste", "volume": "2 gal", "time": "1 min" } ],
          "lacks": [ "2 samples were lost on the line" ],
          "a_later_version_may_add": { "this": 1 }
        }
        """;

    /// <summary>Zips parts in order; a name may come twice.</summary>
    public static string Zip(string path, IEnumerable<KeyValuePair<string, byte[]>> parts)
    {
        using ZipArchive zip = ZipFile.Open(path, ZipArchiveMode.Create);
        foreach ((string name, byte[] bytes) in parts)
        {
            using Stream part = zip.CreateEntry(name).Open();
            part.Write(bytes);
        }

        return path;
    }

    private static string Hash(byte[] bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));
}
