using System.CommandLine;
using Clackbeat.Commands.Describe;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;
using Clackbeat.Records.Sharing;
using Clackbeat.Site;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;

namespace Clackbeat.Commands.Analyse;

/// <summary>The site of a record: the one that was given, or the one that travels with the record.</summary>
internal static class RecordSite
{
    /// <summary><c>--site</c> where a record may bring its own.</summary>
    public static Option<string?> Option() => new("--site")
    {
        Description = "Site file that describes the ram (made by 'clackbeat site new'); left out: the one inside the record",
        HelpName = "SITE",
    };

    /// <summary>The site to work with.</summary>
    /// <param name="given">The site file that the user named; null for none.</param>
    /// <param name="input">The record.</param>
    /// <exception cref="InputException">There is no site file, or it can't stand.</exception>
    public static RamSite Of(string? given, string input) => given is not null ? SiteFile.Load(given)
        : TryInside(input) ?? throw InputException.Of(Path.Exists(input) ? "input.record-without-site" : "table.no-such-file", ("file", input));

    /// <summary>The site that travels with a record; null where it brings none.</summary>
    public static RamSite? TryInside(string input) =>
        SharedRecord.Is(input) ? SharedRecord.Open(input).Site
        : BlockReader.IsRecording(input) ? SiteDocuments.TryFind(RecordingScan.Of(input).Sessions.SelectMany(s => s.Documents), input)
        : null;

    /// <summary>Buckets that were filled while a record was made and travel with it.</summary>
    public static IReadOnlyList<BucketTest> BucketsInside(string input) =>
        SharedRecord.Is(input) ? SharedRecord.Open(input).Manifest.BucketTests : [];
}
