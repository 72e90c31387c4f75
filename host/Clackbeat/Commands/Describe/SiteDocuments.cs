using Clackbeat.Recording.Files;
using Clackbeat.Site.Calibrations;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;

namespace Clackbeat.Commands.Describe;

/// <summary>Site file and calibration as they travel in a recording, and back.</summary>
internal static class SiteDocuments
{
    /// <summary>Checks a site file and takes it along, with the calibration that it names.</summary>
    public static IReadOnlyList<RecordingDocument> Of(string sitePath)
    {
        RamSite site = SiteFile.Load(sitePath);
        RecordingDocument itself = new(DocumentRole.Site, Path.GetFileName(sitePath), File.ReadAllText(sitePath));
        return site.Sensor is { Calibration: { } calibration, CalibrationFile: { } name }
            ? [itself, new RecordingDocument(DocumentRole.Calibration, Path.GetFileName(name), CalibrationText.Of(calibration))]
            : [itself];
    }

    /// <summary>The site that a recording carries, with its calibration; null when it carries none.</summary>
    public static RamSite? TryFind(IEnumerable<RecordingDocument> documents, string input)
    {
        RecordingDocument? site = documents.LastOrDefault(d => d.Role == DocumentRole.Site);
        RecordingDocument? calibration = documents.LastOrDefault(d => d.Role == DocumentRole.Calibration);
        if (site is null)
        {
            return null;
        }

        RamSite read = SiteFile.Parse(site.Text, $"{site.Name} inside {input}");
        return calibration is null
            ? read
            : read with
            {
                Sensor = read.Sensor with
                {
                    Calibration = CalibrationFile.Parse(calibration.Text, $"{calibration.Name} inside {input}"),
                },
            };
    }
}
