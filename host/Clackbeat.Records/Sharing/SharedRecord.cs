using System.Text;
using Clackbeat.Records.Samples;
using Clackbeat.Records.Sources;
using Clackbeat.Site;
using Clackbeat.Site.Calibrations;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;

namespace Clackbeat.Records.Sharing;

/// <summary>
/// A record that its owner gave away: the samples, the site file, the buckets and the licence in one zip archive. See
/// docs/shared-record.md.
/// </summary>
public sealed class SharedRecord : ISampleSource
{
    private readonly TableSource _table;

    private SharedRecord(string path, SharedManifest manifest, string siteText, RamSite site, TableSource table) =>
        (Name, Manifest, SiteText, Site, _table) = (path, manifest, siteText, site, table);

    /// <inheritdoc/>
    public string Name { get; }

    /// <summary>What it says of itself.</summary>
    public SharedManifest Manifest { get; }

    /// <summary>The site file as it lies in the archive.</summary>
    public string SiteText { get; }

    /// <summary>The ram, without the buckets that were filled meanwhile.</summary>
    public RamSite Site { get; }

    /// <inheritdoc/>
    public SampleColumns Columns => _table.Columns;

    /// <inheritdoc/>
    public RecordStart? Start => Manifest.Started is { } utc ? new RecordStart(utc, null) : null;

    /// <inheritdoc/>
    public SourceFaults Faults => new(_table.Faults.SkippedRows, [.. Manifest.Lacks.Select(l => Fact.Of("source-lack", ("what", l)))], Manifest.Lacks.Count > 0);

    /// <summary>Whether a file is such an archive.</summary>
    public static bool Is(string path) => SharedParts.IsShared(path);

    /// <summary>Opens an archive, and checks every part against its manifest before anything is computed from it.</summary>
    /// <param name="path">The archive; <see cref="Is"/> said yes.</param>
    /// <exception cref="InputException">A part is missing, damaged or hostile.</exception>
    public static SharedRecord Open(string path)
    {
        var parts = SharedParts.Open(path);
        var manifest = SharedManifest.Read(parts.ReadSmall(SharedFormat.Manifest), path);
        Verify(parts, SharedFormat.Record, manifest.Record, path);
        string siteText = Text(parts, SharedFormat.Site, manifest.Site, path);
        RamSite site = SiteFile.Parse(siteText, $"{SharedFormat.Site} inside {path}");
        if (manifest.Calibration is { } calibration)
        {
            string text = Text(parts, SharedFormat.Calibration, calibration, path);
            site = site with { Sensor = site.Sensor with { Calibration = CalibrationFile.Parse(text, $"{SharedFormat.Calibration} inside {path}") } };
        }

        return new SharedRecord(path, manifest, siteText, site, TableSource.OpenText(() => parts.Read(SharedFormat.Record), $"{SharedFormat.Record} inside {path}"));
    }

    /// <inheritdoc/>
    public void Read(SampleTaker take, IProgress<double>? progress = null, CancellationToken cancellation = default) =>
        _table.Read(take, progress, cancellation);

    private static string Text(SharedParts parts, string name, SharedPart stated, string path)
    {
        Verify(parts, name, stated, path);
        return Encoding.UTF8.GetString(parts.ReadSmall(name));
    }

    private static void Verify(SharedParts parts, string name, SharedPart stated, string path)
    {
        using CheckedStream part = parts.Read(name);
        part.CopyTo(Stream.Null);
        if (part.Position != stated.Bytes || !part.Sha256.Equals(stated.Sha256, StringComparison.OrdinalIgnoreCase))
        {
            throw SharedParts.Refused(path, Fact.Of("shared.part-changed", ("part", name)));
        }
    }
}
