using System.Text;
using Clackbeat.Planning.Plans;
using Clackbeat.Report.Content;
using Clackbeat.Report.Export;
using Clackbeat.Report.Html;
using Clackbeat.Report.Pdf;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Report.Planned;

/// <summary>Writes a plan to take to a meeting or a shop.</summary>
public static class PlanReportWriter
{
    /// <summary>Writes it to a stream, which stays open.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="format">HTML or PDF.</param>
    /// <param name="plan">The plan; at least one choice.</param>
    /// <param name="units">Units the page starts with.</param>
    /// <param name="made">When it is made.</param>
    public static void Write(Stream output, ReportFormat format, RamPlan plan, Units units, DateTimeOffset made)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(plan);
        ReportContent content = new PlanComposer(plan, units, made).Make();
        if (format == ReportFormat.Pdf)
        {
            PdfReport.Write(output, OneSystem.Of(content), made);
        }
        else
        {
            output.Write(Encoding.UTF8.GetBytes(HtmlReport.Write(content)));
        }
    }
}
