using System.Globalization;
using System.Text.Json;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Records.Sharing;

/// <summary>A part of the archive as the manifest names it.</summary>
/// <param name="Bytes">Its length.</param>
/// <param name="Sha256">SHA-256 of its bytes, in lower-case hex.</param>
public sealed record SharedPart(long Bytes, string Sha256);

/// <summary>What an archive says of itself.</summary>
public sealed record SharedManifest
{
    /// <summary>What made it.</summary>
    public required string Program { get; init; }

    /// <summary>The licence its owner chose; null for none.</summary>
    public string? Licence { get; init; }

    /// <summary>Names and places were left out.</summary>
    public bool PlaceLeftOut { get; init; }

    /// <summary>When its first sample was taken; null where nobody knows.</summary>
    public DateTimeOffset? Started { get; init; }

    /// <summary>The record.</summary>
    public required SharedPart Record { get; init; }

    /// <summary>The site file.</summary>
    public required SharedPart Site { get; init; }

    /// <summary>The calibration; null without one.</summary>
    public SharedPart? Calibration { get; init; }

    /// <summary>Buckets filled while the record was made.</summary>
    public IReadOnlyList<BucketTest> BucketTests { get; init; } = [];

    /// <summary>What of the record was lost before it was shared: one English sentence a loss.</summary>
    public IReadOnlyList<string> Lacks { get; init; } = [];

    /// <summary>Writes it as JSON.</summary>
    public void Write(Stream stream)
    {
        using var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true });
        json.WriteStartObject();
        json.WriteString("format", SharedFormat.Name);
        json.WriteNumber("version", SharedFormat.Version);
        json.WriteString("program", Program);
        json.WriteString("licence", Licence);
        json.WriteBoolean("place_left_out", PlaceLeftOut);
        json.WriteString("started_utc", Started?.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture));
        WritePart(json, "record", SharedFormat.Record, Record);
        WritePart(json, "site", SharedFormat.Site, Site);
        WritePart(json, "calibration", SharedFormat.Calibration, Calibration);
        WriteBuckets(json);
        json.WriteStartArray("lacks");
        foreach (string lack in Lacks)
        {
            json.WriteStringValue(lack);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <summary>Reads it.</summary>
    /// <param name="bytes">The JSON.</param>
    /// <param name="path">The archive, for messages.</param>
    /// <exception cref="InputException">It is none, or of a later version.</exception>
    public static SharedManifest Read(byte[] bytes, string path)
    {
        try
        {
            using var document = JsonDocument.Parse(bytes);
            JsonElement root = document.RootElement;
            if (root.GetProperty("format").GetString() != SharedFormat.Name)
            {
                throw SharedParts.Refused(path, Fact.Of("shared.other-format"));
            }

            int version = root.GetProperty("version").GetInt32();
            return version is >= 1 and <= SharedFormat.Version
                ? Read(root, path)
                : throw InputException.Of("shared.newer", ("file", path), ("version", version), ("known", SharedFormat.Version));
        }
        catch (Exception bad) when (bad is JsonException or KeyNotFoundException or InvalidOperationException or FormatException)
        {
            throw SharedParts.Refused(path, Fact.Of("shared.manifest-broken", ("why", bad.Message)), bad);
        }
    }

    private static SharedManifest Read(JsonElement root, string path) => new()
    {
        Program = root.GetProperty("program").GetString() ?? "",
        Licence = Text(root, "licence"),
        PlaceLeftOut = root.GetProperty("place_left_out").GetBoolean(),
        Started = Text(root, "started_utc") is { } utc ? DateTimeOffset.Parse(utc, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal) : null,
        Record = Part(root, "record") ?? throw SharedParts.Refused(path, Fact.Of("shared.no-record")),
        Site = Part(root, "site") ?? throw SharedParts.Refused(path, Fact.Of("shared.no-site")),
        Calibration = Part(root, "calibration"),
        BucketTests = [.. List(root, "bucket_tests").Select(b => Bucket(b, path))],
        Lacks = [.. List(root, "lacks").Select(l => l.GetString() ?? "")],
    };

    private static JsonElement.ArrayEnumerator List(JsonElement root, string name) =>
        root.TryGetProperty(name, out JsonElement list) ? list.EnumerateArray() : default;

    private static string? Text(JsonElement root, string name) => root.TryGetProperty(name, out JsonElement text) ? text.GetString() : null;

    private static SharedPart? Part(JsonElement root, string name) =>
        root.TryGetProperty(name, out JsonElement part) && part.ValueKind == JsonValueKind.Object
            ? new SharedPart(part.GetProperty("bytes").GetInt64(), part.GetProperty("sha256").GetString() ?? "")
            : null;

    private static BucketTest Bucket(JsonElement bucket, string path)
    {
        BucketOutlet outlet = bucket.GetProperty("outlet").GetString() switch
        {
            "delivery" => BucketOutlet.Delivery,
            "waste" => BucketOutlet.Waste,
            _ => throw SharedParts.Refused(path, Fact.Of("shared.bucket-outlet")),
        };
        return QuantityText.TryParse(QuantityKind.Volume, bucket.GetProperty("volume").GetString() ?? "", out double volumeM3, out _)
            && QuantityText.TryParse(QuantityKind.Duration, bucket.GetProperty("time").GetString() ?? "", out double timeS, out _)
            && volumeM3 > 0 && timeS > 0
            ? new BucketTest { Outlet = outlet, VolumeM3 = volumeM3, TimeS = timeS, OfThisRecord = true }
            : throw SharedParts.Refused(path, Fact.Of("shared.bucket-amount"));
    }

    private static void WritePart(Utf8JsonWriter json, string name, string file, SharedPart? part)
    {
        if (part is null)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        json.WriteString("file", file);
        json.WriteNumber("bytes", part.Bytes);
        json.WriteString("sha256", part.Sha256);
        json.WriteEndObject();
    }

    private void WriteBuckets(Utf8JsonWriter json)
    {
        json.WriteStartArray("bucket_tests");
        foreach (BucketTest test in BucketTests)
        {
            json.WriteStartObject();
            json.WriteString("outlet", test.Outlet == BucketOutlet.Delivery ? "delivery" : "waste");
            json.WriteString("volume", string.Create(CultureInfo.InvariantCulture, $"{test.VolumeM3 * 1000:G10} L"));
            json.WriteString("time", string.Create(CultureInfo.InvariantCulture, $"{test.TimeS:G10} s"));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
