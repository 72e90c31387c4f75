using System.Text;
using Clackbeat.Report.Content;
using Clackbeat.Report.Export;
using Clackbeat.Report.Html;
using Clackbeat.Report.Pdf;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Report.Guides;

/// <summary>Writes the keeper's guides in the language that is spoken.</summary>
public static class GuideWriter
{
    /// <summary>Writes the field guide to a stream, which stays open.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="format">HTML or PDF.</param>
    /// <param name="portraits">The ram, well and with each fault.</param>
    /// <param name="units">Units to begin with.</param>
    /// <param name="made">When it is made.</param>
    public static void Faults(Stream output, ReportFormat format, FaultPortraits portraits, Units units, DateTimeOffset made)
    {
        ArgumentNullException.ThrowIfNull(portraits);
        Write(output, format, new FaultGuide(portraits, units).Make(), made);
    }

    /// <summary>Writes the calibration guide to a stream, which stays open.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="format">HTML or PDF.</param>
    /// <param name="site">The reader's ram; null for none.</param>
    /// <param name="siteFile">Name of its site file, for the commands.</param>
    /// <param name="units">Units to begin with.</param>
    /// <param name="made">When it is made.</param>
    public static void Calibration(Stream output, ReportFormat format, RamSite? site, string siteFile, Units units, DateTimeOffset made) =>
        Write(output, format, new CalibrationGuide(site, siteFile, units).Make(), made);

    /// <summary>The field guide as a page of the documentation, with its pictures by their paths beside it.</summary>
    /// <param name="portraits">The ram, well and with each fault.</param>
    /// <param name="pictures">Folder of the pictures, as the page names it.</param>
    public static (string Page, IReadOnlyList<(string Path, string Svg)> Pictures) FaultsMarkdown(FaultPortraits portraits, string pictures)
    {
        ArgumentNullException.ThrowIfNull(portraits);
        return new MarkdownPage(pictures).Write(new FaultGuide(portraits, Units.Metric).Make());
    }

    /// <summary>The calibration guide as a part of a page of the documentation.</summary>
    /// <param name="siteFile">Name of a site file, for the commands.</param>
    public static string CalibrationMarkdown(string siteFile) => new MarkdownPage("").Write(new CalibrationGuide(null, siteFile, Units.Metric).Make()).Page;

    private static void Write(Stream output, ReportFormat format, ReportContent content, DateTimeOffset made)
    {
        ArgumentNullException.ThrowIfNull(output);
        if (format == ReportFormat.Pdf)
        {
            PdfReport.Write(output, content, made);
        }
        else
        {
            output.Write(Encoding.UTF8.GetBytes(HtmlReport.Write(content)));
        }
    }
}
