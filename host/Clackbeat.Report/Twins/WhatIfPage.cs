using System.Text;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Export;
using Clackbeat.Report.Html;
using Clackbeat.Report.Pdf;
using Clackbeat.Report.Plots;
using Clackbeat.Site.Model;
using Clackbeat.Twin.Changes;
using Clackbeat.Twin.Fitting;
using Clackbeat.Twin.Model;

namespace Clackbeat.Report.Twins;

/// <summary>What a page about a tried change is made of.</summary>
/// <param name="Site">The site.</param>
/// <param name="Record">Name of the record.</param>
/// <param name="Twin">The twin.</param>
/// <param name="AsIs">The ram as it is.</param>
/// <param name="Tried">The changes: one, or those of a range.</param>
/// <param name="Axis">The axis of a range; null for one change.</param>
/// <param name="Notes">What to know beside the figures.</param>
/// <param name="Made">When it is made.</param>
public sealed record WhatIfStory(
    RamSite Site, string Record, FittedTwin Twin, Prediction AsIs, IReadOnlyList<TriedChange> Tried, SettingAxis? Axis, IReadOnlyList<string> Notes,
    DateTimeOffset Made)
{
    /// <summary>The twin's beat as it is; the fitted one where nothing else is given.</summary>
    public Cycle Beat { get; init; } = Twin.Cycle;

    /// <summary>The drive pipe against its rating as it is.</summary>
    public PipeVerdict PipeAsIs { get; init; }
}

/// <summary>Writes a change that was tried on a twin as a page, or its first picture alone.</summary>
public static class WhatIfPage
{
    /// <summary>Writes the page to a stream, which stays open.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="format">HTML or PDF.</param>
    /// <param name="story">What it tells.</param>
    public static void Write(Stream output, ReportFormat format, WhatIfStory story)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(story);
        Content.ReportContent content = new WhatIfComposer(story).Make();
        if (format == ReportFormat.Pdf)
        {
            PdfReport.Write(output, content, story.Made);
        }
        else
        {
            output.Write(Encoding.UTF8.GetBytes(HtmlReport.Write(content)));
        }
    }

    /// <summary>The first picture as a file of its own: the delivered water over the range, or the beat and its twin.</summary>
    /// <param name="story">What it tells.</param>
    public static string Svg(WhatIfStory story)
    {
        ArgumentNullException.ThrowIfNull(story);
        Drawing drawing = new WhatIfComposer(story).Pictures()[0];
        using ScottPlot.Plot plot = drawing.Make(Frame.Wide);
        plot.FigureBackground.Color = ScottPlot.Colors.White;
        return plot.GetSvgXml(Frame.Wide.Width, Frame.Wide.Height);
    }
}
