using System.Text;
using Clackbeat.Report.Content;
using Clackbeat.Report.Export;
using Clackbeat.Report.Html;
using Clackbeat.Report.Pdf;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Model;

namespace Clackbeat.Report;

/// <summary>Writes the report a keeper reads.</summary>
public static class ReportWriter
{
    /// <summary>Writes a report to a stream, which stays open.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="format">HTML or PDF.</param>
    /// <param name="site">The site the record comes from.</param>
    /// <param name="analysis">What the record told.</param>
    /// <param name="baseline">The same ram when it was well, to compare with; null without one.</param>
    /// <param name="made">When the report is made, shown with its offset from UTC.</param>
    /// <param name="twin">What the twin of the ram adds; null leaves it out.</param>
    public static void Write(
        Stream output, ReportFormat format, RamSite site, RamAnalysis analysis, RamAnalysis? baseline, DateTimeOffset made, TwinPart? twin = null)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(analysis);
        ReportContent content = new Composer(site, analysis, baseline, made, twin).Make();
        switch (format)
        {
            case ReportFormat.Html:
                output.Write(Encoding.UTF8.GetBytes(HtmlReport.Write(content)));
                break;
            case ReportFormat.Pdf:
                PdfReport.Write(output, content, made);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(format), format, null);
        }
    }
}
