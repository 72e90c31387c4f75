using System.Text;
using Clackbeat.Report.Content;
using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using Clackbeat.Site.Quantities;
using ScottPlot;
using Drawing = Clackbeat.Report.Plots.Drawing;

namespace Clackbeat.Report.Guides;

/// <summary>Sets a guide as Markdown for the documentation, so that its sentences stand nowhere twice.</summary>
/// <param name="pictures">Folder of the pictures, as the page names it.</param>
internal sealed class MarkdownPage(string pictures)
{
    private readonly StringBuilder _page = new();
    private readonly List<(string Path, string Svg)> _pictures = [];

    public (string Page, IReadOnlyList<(string Path, string Svg)> Pictures) Write(ReportContent content)
    {
        Line($"# {content.SiteName}");
        Line(content.Source);
        Line();
        Line($"**{content.Verdict.Label}**");
        Line();
        foreach (Rich sentence in content.Verdict.Sentences.Prepend(content.Verdict.Headline))
        {
            Line($"- {Text(sentence)}");
        }

        foreach (Section section in content.Sections)
        {
            Line();
            Line($"## {section.Title}");
            section.Blocks.ToList().ForEach(Set);
        }

        return (_page.ToString(), _pictures);
    }

    private void Set(Block block)
    {
        Line();
        switch (block)
        {
            case Paragraph p:
                Line(Text(p.Text));
                break;
            case Code c:
                Line($"```\n{c.Text}\n```");
                break;
            case Bullets b:
                b.Items.ToList().ForEach(i => Line($"- {Text(i)}"));
                break;
            case Terms t:
                t.Items.ToList().ForEach(i => Line($"**{i.Term}:** {Text(i.Meaning)}"));
                break;
            case Callout c:
                Line($"**{c.Title}:**");
                c.Text.ToList().ForEach(t => Line($"- {Text(t)}"));
                break;
            case PictureBlock p:
                Picture(p.Drawing);
                break;
            case Table t:
                Table(t);
                break;
            default:
                throw new InvalidOperationException($"No Markdown for {block.GetType().Name}.");
        }
    }

    private void Picture(Drawing drawing)
    {
        using Plot plot = drawing.Make(Frame.Wide);
        plot.FigureBackground.Color = Colors.White;
        string path = $"{pictures}/{drawing.Id}.svg";
        _pictures.Add((path, plot.GetSvgXml(Frame.Wide.Width, Frame.Wide.Height)));
        Line($"![{drawing.Alt}]({path})");
    }

    private void Table(Table table)
    {
        Line($"| {string.Join(" | ", table.Heads)} |");
        Line($"|{string.Concat(table.Heads.Select(_ => " --- |"))}");
        foreach (TableRow row in table.Groups.SelectMany(g => g.Rows))
        {
            Line($"| {row.Name} | {string.Join(" | ", row.Cells.Select(Text))} |");
        }
    }

    private static string Text(Rich text) => text.In(Units.Metric);

    private void Line(string text = "") => _page.Append(text).Append('\n');
}
