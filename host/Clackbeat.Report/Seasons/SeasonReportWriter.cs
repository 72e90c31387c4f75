using System.Text;
using Clackbeat.Report.Content;
using Clackbeat.Report.Export;
using Clackbeat.Report.Html;
using Clackbeat.Report.Pdf;

namespace Clackbeat.Report.Seasons;

/// <summary>Writes the season's one page for a committee meeting.</summary>
public static class SeasonReportWriter
{
    /// <summary>Writes it to a stream, which stays open.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="format">HTML or PDF.</param>
    /// <param name="story">What it tells.</param>
    /// <param name="made">When it is made.</param>
    public static void Write(Stream output, ReportFormat format, SeasonStory story, DateTimeOffset made)
    {
        ReportContent content = new SeasonComposer(story, made).Make();
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
