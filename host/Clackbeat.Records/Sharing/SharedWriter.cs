using System.IO.Compression;
using System.Text;
using Clackbeat.Records.Export;
using Clackbeat.Records.Sources;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;

namespace Clackbeat.Records.Sharing;

/// <summary>What goes into an archive beside the samples.</summary>
public sealed record SharedContents
{
    /// <summary>What makes it, with its version.</summary>
    public required string Program { get; init; }

    /// <summary>Text of the site file.</summary>
    public required string SiteText { get; init; }

    /// <summary>Text of the calibration; null without one.</summary>
    public string? CalibrationText { get; init; }

    /// <summary>Names and places were left out of the site file.</summary>
    public required bool PlaceLeftOut { get; init; }

    /// <summary>The licence that the owner chose; null for none.</summary>
    public string? Licence { get; init; }

    /// <summary>Buckets filled while the record was made.</summary>
    public IReadOnlyList<BucketTest> BucketTests { get; init; } = [];

    /// <summary>Makes the English sentences of what the record lacks.</summary>
    public required Func<Fact, string> Say { get; init; }
}

/// <summary>Makes the archive of a shared record.</summary>
public static class SharedWriter
{
    // A fixed time on every part: the archive of one record is the same whenever it is made, and tells no calendar.
    private static readonly DateTimeOffset PartTime = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);

    private const string NoLicence =
        "The owner of this record chose no licence. Use it for what it was handed to you for. Ask before you publish it or hand it on.";

    /// <summary>Writes an archive.</summary>
    /// <param name="stream">Where to; left open.</param>
    /// <param name="source">The samples, in gauge pressures.</param>
    /// <param name="contents">What goes with them.</param>
    /// <param name="progress">Receives the share done, 0 to 1.</param>
    /// <param name="cancellation">Ends the work early; the archive is not whole then.</param>
    /// <returns>How many samples it holds.</returns>
    public static long Write(
        Stream stream, ISampleSource source, SharedContents contents, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        using var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true);
        (SharedPart record, long samples, DateTimeOffset? started) = WriteRecord(zip, source, progress, cancellation);
        SharedPart site = WriteText(zip, SharedFormat.Site, contents.SiteText);
        SharedPart? calibration = contents.CalibrationText is { } text ? WriteText(zip, SharedFormat.Calibration, text) : null;
        WriteText(zip, SharedFormat.Licence, (contents.Licence ?? NoLicence) + "\n");
        using Stream manifest = Part(zip, SharedFormat.Manifest);
        new SharedManifest
        {
            Program = contents.Program,
            Licence = contents.Licence,
            PlaceLeftOut = contents.PlaceLeftOut,
            Started = started,
            Record = record,
            Site = site,
            Calibration = calibration,
            BucketTests = contents.BucketTests,
            Lacks = [.. source.Faults.Lacks.Select(contents.Say)],
        }.Write(manifest);
        return samples;
    }

    private static (SharedPart Part, long Samples, DateTimeOffset? Started) WriteRecord(
        ZipArchive zip, ISampleSource source, IProgress<double>? progress, CancellationToken cancellation)
    {
        using var stream = new CheckedStream(Part(zip, SharedFormat.Record));
        using var file = new CsvExport(stream, source.Columns);
        var rows = new ExportRows(file);
        DateTimeOffset? first = null;
        source.Read(
            samples =>
            {
                first ??= samples.Length > 0 && samples[0].UtcMicroseconds is long utc ? DateTimeOffset.UnixEpoch.AddMicroseconds(utc) : null;
                rows.Add(samples);
            },
            progress,
            cancellation);
        rows.Finish();
        return (new SharedPart(stream.Position, stream.Sha256), rows.Rows, source.Start?.Utc ?? first);
    }

    private static SharedPart WriteText(ZipArchive zip, string name, string text)
    {
        using var stream = new CheckedStream(Part(zip, name));
        stream.Write(Encoding.UTF8.GetBytes(text));
        return new SharedPart(stream.Position, stream.Sha256);
    }

    private static Stream Part(ZipArchive zip, string name)
    {
        ZipArchiveEntry entry = zip.CreateEntry(name, CompressionLevel.SmallestSize);
        entry.LastWriteTime = PartTime;
        return entry.Open();
    }
}
