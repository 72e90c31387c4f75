using Clackbeat.Report.Content;
using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Clackbeat.Report.Pdf;

/// <summary>Sets the blocks of a report one below the other. Quantities stand in both unit systems, since paper has no switch.</summary>
internal sealed class PdfSetter(PdfFlow flow, PdfDocument document, XPdfForm? pictures)
{
    private const double Padding = 12;
    private int picture;

    public void Head(string kind, string siteName, string source)
    {
        flow.Write(kind, PdfInk.Lead, PdfInk.Muted);
        flow.Write(siteName, PdfInk.Title, PdfInk.Text);
        flow.Write(source, PdfInk.Small, PdfInk.Muted);
        flow.Skip(12);
    }

    public void Verdict(Verdict verdict) => Box(
        verdict.Tone,
        [
            (verdict.Label, PdfInk.SubHeading, true),
            (verdict.Headline.ToString(), PdfInk.Headline, false),
            .. verdict.Sentences.Select(s => (s.ToString(), PdfInk.Lead, false)),
        ]);

    public void Section(Section section)
    {
        if (section.IsBare)
        {
            document.Outlines.Add(section.Title, flow.Page, true);
            section.Blocks.ToList().ForEach(Set);
            return;
        }

        if (section.IsTight)
        {
            document.Outlines.Add(section.Title, flow.Page, true);
            flow.Write(section.Title, PdfInk.SubHeading, PdfInk.Text);
            Bullets(section.Blocks.OfType<Bullets>().SelectMany(b => b.Items).Select(i => i.ToString()), PdfInk.Small, 1);
            return;
        }

        flow.Skip(16);
        // A heading alone at the foot of a page would lead nowhere.
        flow.Need(HeightOfFirst(section) + 34);
        document.Outlines.Add(section.Title, flow.Page, true);
        flow.Write(section.Title, PdfInk.Heading, PdfInk.Text);
        flow.Y += 2;
        flow.Canvas.DrawLine(PdfInk.Rule, PdfFlow.Left, flow.Y, PdfFlow.Left + PdfFlow.Width, flow.Y);
        flow.Y += 8;
        foreach (Block block in section.Blocks)
        {
            Set(block);
        }
    }

    private static double HeightOfFirst(Section section) => section.Blocks[0] switch
    {
        PictureBlock p => PictureHeight(p.Drawing) + 50,
        Content.Tiles => 70,
        _ => 48,
    };

    private void Set(Block block)
    {
        switch (block)
        {
            case Paragraph p:
                flow.Write(p.Text.ToString(), PdfInk.Body, PdfInk.Text);
                flow.Y += 5;
                break;
            case Bullets b:
                Bullets(b.Items.Select(i => i.ToString()), PdfInk.Body, 3);
                break;
            case Tiles t:
                Tiles(t);
                break;
            case Terms t:
                Terms(t);
                break;
            case Callout c:
                Box(c.Tone, [(c.Title, PdfInk.SubHeading, true), .. c.Text.Select(t => (t.ToString(), PdfInk.Body, false))]);
                break;
            case FindingBlock f:
                Finding(f);
                break;
            case PictureBlock p:
                Picture(p.Drawing);
                break;
            case Table t:
                new PdfTable(flow, t).Set();
                break;
            default:
                throw new InvalidOperationException($"No PDF for {block.GetType().Name}.");
        }
    }

    private void Bullets(IEnumerable<string> items, XFont font, double after)
    {
        foreach (string item in items)
        {
            flow.Need(PdfFlow.LineHeight(font));
            flow.Canvas.DrawString("•", font, PdfInk.Muted, PdfFlow.Left + 2, flow.Y + PdfFlow.Ascent(font));
            flow.Write(item, font, PdfInk.Text, 14);
            flow.Y += after;
        }

        flow.Y += 3;
    }

    private void Terms(Terms terms)
    {
        foreach ((string term, Rich meaning) in terms.Items)
        {
            List<string> lines = flow.Wrap(meaning.ToString(), PdfInk.Body, PdfFlow.Width - 130);
            double height = (lines.Count * PdfFlow.LineHeight(PdfInk.Body)) + 4;
            flow.Need(height);
            flow.WriteAt([term], PdfInk.BodyBold, PdfInk.Text, PdfFlow.Left, flow.Y);
            flow.WriteAt(lines, PdfInk.Body, PdfInk.Text, PdfFlow.Left + 130, flow.Y);
            flow.Y += height;
        }
    }

    private void Tiles(Tiles tiles)
    {
        const int Columns = 3;
        const double RowHeight = 74;
        double width = PdfFlow.Width / Columns;
        for (int i = 0; i < tiles.Items.Count; i++)
        {
            if (i % Columns == 0)
            {
                flow.Need(RowHeight);
            }

            OneTile(tiles.Items[i], PdfFlow.Left + (i % Columns * width), width - 12);
            if (i % Columns == Columns - 1 || i == tiles.Items.Count - 1)
            {
                flow.Y += RowHeight;
            }
        }
    }

    private void OneTile(Tile tile, double x, double width)
    {
        double y = flow.WriteAt([tile.Name], PdfInk.BodyBold, PdfInk.Text, x, flow.Y);
        if (tile.Quantity is { } quantity)
        {
            MeasureText metric = quantity.Metric with { Value = PdfText.Printable(quantity.Metric.Value) };
            flow.Canvas.DrawString(metric.Value, PdfInk.Big, PdfInk.Text, x, y + PdfFlow.Ascent(PdfInk.Big) - 2);
            string rest = (metric.Margin.Length > 0 ? $"±\u00A0{metric.Margin} " : "") + metric.Unit;
            flow.Canvas.DrawString(rest, PdfInk.Small, PdfInk.Muted, x + flow.Canvas.MeasureString(metric.Value, PdfInk.Big).Width + 5, y + PdfFlow.Ascent(PdfInk.Big) - 2);
            y += PdfFlow.LineHeight(PdfInk.Big) - 4;
            if (quantity.Us != quantity.Metric)
            {
                y = flow.WriteAt([PdfText.Printable(quantity.Us.ToString())], PdfInk.Small, PdfInk.Muted, x, y);
            }
        }
        else
        {
            y = flow.WriteAt([Words.NotGiven], PdfInk.Lead, PdfInk.Muted, x, y + 4) + 4;
        }

        flow.WriteAt(flow.Wrap(tile.Meaning.ToString(), PdfInk.Small, width), PdfInk.Small, PdfInk.Muted, x, y);
    }

    private void Finding(FindingBlock finding)
    {
        var lines = new List<(string, XFont, bool)> { (finding.Title, PdfInk.SubHeading, true), (finding.Likelihood, PdfInk.BodyBold, false) };
        lines.AddRange(finding.Evidence.Select(e => ("– " + e, PdfInk.Body, false)));
        if (finding.Advice.Length > 0)
        {
            lines.Add((Words.Advice, PdfInk.BodyBold, false));
            lines.Add((finding.Advice, PdfInk.Body, false));
        }

        Box(finding.Tone, lines);
    }

    private void Box(Tone tone, IReadOnlyList<(string Words, XFont Font, bool Toned)> paragraphs)
    {
        double width = PdfFlow.Width - (2 * Padding);
        List<(List<string> Lines, XFont Font, bool Toned)> set =
            [.. paragraphs.Select(p => (flow.Wrap(p.Words, p.Font, width), p.Font, p.Toned))];
        double height = (2 * Padding) - 4 + set.Sum(p => (p.Lines.Count * PdfFlow.LineHeight(p.Font)) + 4);
        flow.Need(height);
        var ground = new XSolidBrush(PdfInk.Ground(tone));
        var edge = new XPen(PdfInk.Strong(tone), 1);
        flow.Canvas.DrawRoundedRectangle(edge, ground, PdfFlow.Left, flow.Y, PdfFlow.Width, height, 12, 12);
        double y = flow.Y + Padding;
        foreach ((List<string> lines, XFont font, bool toned) in set)
        {
            y = flow.WriteAt(lines, font, toned ? new XSolidBrush(PdfInk.Strong(tone)) : PdfInk.Text, PdfFlow.Left + Padding, y) + 4;
        }

        flow.Y += height + 10;
    }

    private void Picture(Drawing drawing)
    {
        List<string> caption = flow.Wrap(drawing.Caption.ToString(), PdfInk.Small, PdfFlow.Width);
        double height = PictureHeight(drawing);
        flow.Need(height + 24 + (caption.Count * PdfFlow.LineHeight(PdfInk.Small)));
        flow.Write(drawing.Title, PdfInk.SubHeading, PdfInk.Text);
        pictures!.PageIndex = picture++;
        flow.Canvas.DrawImage(pictures, PdfFlow.Left, flow.Y, PdfFlow.Width, height);
        flow.Y = flow.WriteAt(caption, PdfInk.Small, PdfInk.Muted, PdfFlow.Left, flow.Y + height + 4) + (caption.Count == 0 ? 4 : 12);
    }

    private static double PictureHeight(Drawing drawing)
    {
        Frame size = drawing.In(Frame.Paper);
        return PdfFlow.Width * size.Height / size.Width;
    }
}
