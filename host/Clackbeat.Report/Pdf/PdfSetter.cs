using Clackbeat.Report.Content;
using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Clackbeat.Report.Pdf;

/// <summary>Sets the blocks of a report one below the other. Quantities stand in both unit systems, since paper has no switch.</summary>
/// <param name="flow">Where they go.</param>
/// <param name="document">The document, for its bookmarks.</param>
/// <param name="pictures">The pictures in the order of the report; null leaves their room empty, to see how far the rest reaches.</param>
internal sealed class PdfSetter(PdfFlow flow, PdfDocument document, XPdfForm? pictures)
{
    private const double ContentsLine = 15;
    private readonly PdfBox _box = new(flow);
    private readonly List<(string Title, int Page)> _places = [];
    private (PdfPage Page, double Y)? _contents;
    private int _picture;

    public void Head(string kind, string siteName, string source)
    {
        flow.Write(kind, PdfInk.Lead, PdfInk.Muted);
        flow.Write(siteName, PdfInk.Title, PdfInk.Text);
        flow.Write(source, PdfInk.Small, PdfInk.Muted);
        flow.Skip(12);
    }

    public void Verdict(Verdict verdict) => _box.Set(verdict);

    /// <summary>Begins the annex on a page of its own, with room for its contents.</summary>
    public void BeginAnnex(ReportContent content)
    {
        flow.NewPage();
        document.Outlines.Add(Phrases.Say("report.annex"), flow.Page, true);
        flow.Write(Phrases.Say("report.annex"), PdfInk.Title, PdfInk.Text);
        flow.Y += 4;
        foreach (Rich sentence in content.Verdict.Sentences)
        {
            flow.Write(sentence.In(flow.Units), PdfInk.Lead, PdfInk.Text);
        }

        flow.Y += 8;
        _contents = (flow.Page, flow.Y);
        flow.Y += content.Sections.Count * ContentsLine;
    }

    /// <summary>Writes the annex's contents, now that every part has its page.</summary>
    public void FillContents()
    {
        if (_contents is not { } contents)
        {
            return;
        }

        // A page takes one canvas at a time, and the last page still has one.
        flow.Close();
        using var canvas = XGraphics.FromPdfPage(contents.Page);
        double y = contents.Y;
        foreach ((string title, int page) in _places)
        {
            string number = Digits.Count(page);
            canvas.DrawString(title, PdfInk.Body, PdfInk.Text, PdfFlow.Left, y + PdfFlow.Ascent(PdfInk.Body));
            canvas.DrawString(number, PdfInk.Body, PdfInk.Muted, PdfFlow.Left + PdfFlow.Width - canvas.MeasureString(number, PdfInk.Body).Width, y + PdfFlow.Ascent(PdfInk.Body));
            y += ContentsLine;
        }
    }

    private void NotePlace(Section section)
    {
        if (_contents is not null)
        {
            _places.Add((section.Title, document.PageCount));
        }
    }

    public void Section(Section section)
    {
        if (section.IsTight)
        {
            document.Outlines.Add(section.Title, flow.Page, true);
            flow.Write(section.Title, PdfInk.SubHeading, PdfInk.Text);
            Bullets(section.Blocks.OfType<Bullets>().SelectMany(b => b.Items).Select(i => i.In(flow.Units)), PdfInk.Small, 1);
            return;
        }

        if (section.IsBare)
        {
            document.Outlines.Add(section.Title, flow.Page, true);
            section.Blocks.ToList().ForEach(Set);
            return;
        }

        flow.Skip(16);
        // A heading alone at the foot of a page would lead nowhere.
        flow.Need(HeightOfFirst(section) + 34);
        NotePlace(section);
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

    private double HeightOfFirst(Section section) => section.Blocks[0] switch
    {
        FindingBlock f => _box.HeightOf(f),
        Callout c => _box.HeightOf(c),
        PictureBlock p => RoomFor(p.Drawing),
        Content.Terms when section.Blocks is [_, PictureBlock p, ..] => RoomFor(p.Drawing) + 24,
        Content.Tiles => 70,
        Table => PdfTable.LeastHeight,
        _ => 48,
    };

    private void Set(Block block)
    {
        switch (block)
        {
            case Paragraph p:
                flow.Write(p.Text.In(flow.Units), PdfInk.Body, PdfInk.Text);
                flow.Y += 5;
                break;
            case Code c:
                c.Text.Split('\n').ToList().ForEach(line => flow.Write(line, PdfInk.BodyBold, PdfInk.Text, 14));
                flow.Y += 5;
                break;
            case Bullets b:
                Bullets(b.Items.Select(i => i.In(flow.Units)), PdfInk.Body, 3);
                break;
            case Tiles t:
                Tiles(t);
                break;
            case Terms t:
                Terms(t);
                break;
            case Callout c:
                _box.Set(c);
                break;
            case FindingBlock f:
                _box.Set(f);
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
            List<string> name = flow.Wrap(term, PdfInk.BodyBold, 122);
            List<string> lines = flow.Wrap(meaning.In(flow.Units), PdfInk.Body, PdfFlow.Width - 130);
            double height = (Math.Max(name.Count, lines.Count) * PdfFlow.LineHeight(PdfInk.Body)) + 4;
            flow.Need(height);
            flow.WriteAt(name, PdfInk.BodyBold, PdfInk.Text, PdfFlow.Left, flow.Y);
            flow.WriteAt(lines, PdfInk.Body, PdfInk.Text, PdfFlow.Left + 130, flow.Y);
            flow.Y += height;
        }
    }

    private void Tiles(Tiles tiles)
    {
        const int Columns = 3;
        double width = PdfFlow.Width / Columns;
        foreach (Tile[] row in tiles.Items.Chunk(Columns))
        {
            double height = row.Max(t => TileHeight(t, width - 12)) + 8;
            flow.Need(height);
            for (int i = 0; i < row.Length; i++)
            {
                OneTile(row[i], PdfFlow.Left + (i * width), width - 12);
            }

            flow.Y += height;
        }
    }

    private double TileHeight(Tile tile, double width) =>
        PdfFlow.LineHeight(PdfInk.BodyBold)
        + (tile.Quantity is { } quantity
            ? PdfFlow.LineHeight(PdfInk.Big) - 4 + (quantity.Us == quantity.Metric ? 0 : PdfFlow.LineHeight(PdfInk.Small))
            : PdfFlow.LineHeight(PdfInk.Lead) + 8)
        + (flow.Wrap(tile.Meaning.In(flow.Units), PdfInk.Small, width).Count * PdfFlow.LineHeight(PdfInk.Small));

    private void OneTile(Tile tile, double x, double width)
    {
        double y = flow.WriteAt([tile.Name], PdfInk.BodyBold, PdfInk.Text, x, flow.Y);
        if (tile.Quantity is { } quantity)
        {
            (MeasureText own, MeasureText other) = flow.Units == Units.Us ? (quantity.Us, quantity.Metric) : (quantity.Metric, quantity.Us);
            string rest = (own.Margin.Length > 0 ? $"±\u00A0{own.Margin} " : "") + own.Unit;
            double at = Beside(own.IsUpperBound ? MeasureText.AtMost : "", PdfInk.Small, PdfInk.Muted, x, y);
            at = Beside(PdfText.Printable(own.Value), PdfInk.Big, PdfInk.Text, at, y);
            Beside(rest, PdfInk.Small, PdfInk.Muted, at, y);
            y += PdfFlow.LineHeight(PdfInk.Big) - 4;
            if (other != own)
            {
                y = flow.WriteAt([PdfText.Printable(other.ToString())], PdfInk.Small, PdfInk.Muted, x, y);
            }
        }
        else
        {
            y = flow.WriteAt([ReportWords.NotGiven], PdfInk.Lead, PdfInk.Muted, x, y + 4) + 4;
        }

        flow.WriteAt(flow.Wrap(tile.Meaning.In(flow.Units), PdfInk.Small, width), PdfInk.Small, PdfInk.Muted, x, y);
    }

    // Words on the line of a tile's large number; where the next ones begin.
    private double Beside(string words, XFont font, XBrush brush, double x, double y)
    {
        if (words.Length == 0)
        {
            return x;
        }

        flow.Canvas.DrawString(words, font, brush, x, y + PdfFlow.Ascent(PdfInk.Big) - 2);
        return x + flow.Canvas.MeasureString(words, font).Width + 5;
    }

    private void Picture(Drawing drawing)
    {
        List<string> caption = flow.Wrap(drawing.Caption.In(flow.Units), PdfInk.Small, PdfFlow.Width);
        double height = PictureHeight(drawing);
        flow.Need(RoomFor(drawing));
        flow.Write(drawing.Title, PdfInk.SubHeading, PdfInk.Text);
        if (pictures is not null)
        {
            pictures.PageIndex = _picture++;
            flow.Canvas.DrawImage(pictures, PdfFlow.Left, flow.Y, PdfFlow.Width, height);
        }

        flow.Y = flow.WriteAt(caption, PdfInk.Small, PdfInk.Muted, PdfFlow.Left, flow.Y + height + 4) + (caption.Count == 0 ? 4 : 12);
    }

    // With its title and its caption: a heading above it has to know all of it, or it stays alone at a page's foot.
    private double RoomFor(Drawing drawing) =>
        PictureHeight(drawing) + 24 + (flow.Wrap(drawing.Caption.In(flow.Units), PdfInk.Small, PdfFlow.Width).Count * PdfFlow.LineHeight(PdfInk.Small));

    private static double PictureHeight(Drawing drawing)
    {
        Frame size = drawing.In(Frame.Paper);
        return PdfFlow.Width * size.Height / size.Width;
    }
}
