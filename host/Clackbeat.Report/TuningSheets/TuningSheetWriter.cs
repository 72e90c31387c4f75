using System.Text;
using Clackbeat.Report.Content;
using Clackbeat.Report.Export;
using Clackbeat.Report.Html;
using Clackbeat.Report.Pdf;
using Clackbeat.Site.Quantities;
using Clackbeat.Tuning.Trials;

namespace Clackbeat.Report.TuningSheets;

/// <summary>Writes the sheet of a tuning session: what was tried, what came of it, and where to leave the valve.</summary>
public static class TuningSheetWriter
{
    /// <summary>Writes it to a stream, which stays open.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="format">HTML or PDF.</param>
    /// <param name="session">The session; at least one trial.</param>
    /// <param name="units">Units the page starts with.</param>
    /// <param name="made">When it is made.</param>
    public static void Write(Stream output, ReportFormat format, TuningSession session, Units units, DateTimeOffset made)
    {
        ArgumentNullException.ThrowIfNull(output);
        ReportContent content = new TuningComposer(session, units, made).Make();
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
