namespace Clackbeat.Records.Sharing;

/// <summary>Names and limits of a shared record, the zip archive that docs/shared-record.md specifies.</summary>
internal static class SharedFormat
{
    /// <summary>What the manifest calls the format.</summary>
    public const string Name = "clackbeat-shared-record";

    /// <summary>Version that is written, and the newest that is read.</summary>
    public const int Version = 1;

    /// <summary>The part that names all others.</summary>
    public const string Manifest = "manifest.json";

    /// <summary>Times and gauge pressures.</summary>
    public const string Record = "record.csv";

    /// <summary>The site file.</summary>
    public const string Site = "site.toml";

    /// <summary>The sensor's calibration, where there is one.</summary>
    public const string Calibration = "calibration.toml";

    /// <summary>What the owner allows.</summary>
    public const string Licence = "LICENCE.txt";

    /// <summary>Most entries of an archive that is read: five are written, and the rest is room for later versions.</summary>
    public const int MostEntries = 32;

    /// <summary>Largest record [bytes]: a day at 1000 samples a second, 24 bytes a row.</summary>
    public const long LargestRecord = 86_400L * 1000 * 24;

    /// <summary>
    /// Largest ratio of unpacked to packed bytes of a record. Deflate packs a run of one byte a thousandfold, so a small file can
    /// unpack to gigabytes. A time column counts up: the record of a dead sensor, whose pressures are all alike, packs 8 times.
    /// </summary>
    public const double LargestRatio = 50;
}
