using Clackbeat.Report.Content;
using PdfSharp.Drawing;

namespace Clackbeat.Report.Pdf;

/// <summary>Sets a table; rows stay whole, and the column heads come again on each page.</summary>
internal sealed class PdfTable(PdfFlow flow, Table table)
{
    /// <summary>Heads and a first row, which a page's foot must have room for.</summary>
    public const double LeastHeight = 60;

    private const double Gutter = 10;

    // Names carry their meaning below them and need a third of the line; cells take a usual width where there is room.
    private const double NameShare = 0.33;
    private readonly double _cellWidth = Math.Min(
        table.IsText ? double.PositiveInfinity : table.Heads.Count switch { <= 2 => 210, 3 => 135, _ => 106 }, (1 - NameShare) * PdfFlow.Width / Math.Max(1, table.Heads.Count - 1));

    // Where many columns share the line, a figure with its ± and both units keeps together only if it is set smaller.
    private XFont CellFont => table.Heads.Count > 3 ? PdfInk.Small : PdfInk.Body;

    private double NameWidth => PdfFlow.Width - (_cellWidth * (table.Heads.Count - 1)) - Gutter;

    public void Set()
    {
        Heads();
        foreach (TableGroup group in table.Groups)
        {
            if (group.Name is { } name)
            {
                Breakable(54);
                flow.Skip(5);
                flow.Write(name, PdfInk.BodyBold, PdfInk.Text);
                Rule();
            }

            foreach (TableRow row in group.Rows)
            {
                Row(row);
            }
        }

        flow.Skip(8);
    }

    private void Row(TableRow row)
    {
        List<string> name = flow.Wrap(row.Name, PdfInk.Body, NameWidth);
        List<string> meaning = flow.Wrap(row.Meaning.In(flow.Units), PdfInk.Small, NameWidth);
        List<List<string>> cells = [.. row.Cells.Select(c => flow.Wrap(c.In(flow.Units), CellFont, _cellWidth - Gutter))];
        double left = (name.Count * PdfFlow.LineHeight(PdfInk.Body)) + (meaning.Count * PdfFlow.LineHeight(PdfInk.Small));
        double right = cells.Max(c => c.Count) * PdfFlow.LineHeight(CellFont);
        Breakable(Math.Max(left, right) + 5);
        double y = flow.WriteAt(name, PdfInk.Body, PdfInk.Text, PdfFlow.Left, flow.Y);
        flow.WriteAt(meaning, PdfInk.Small, PdfInk.Muted, PdfFlow.Left, y);
        for (int i = 0; i < cells.Count; i++)
        {
            Cell(i, cells[i], CellFont, PdfInk.Text);
        }

        flow.Y += Math.Max(left, right) + 2;
        Rule();
    }

    private void Heads()
    {
        flow.Need(LeastHeight);
        flow.WriteAt([table.Heads[0]], PdfInk.Small, PdfInk.Muted, PdfFlow.Left, flow.Y);
        List<List<string>> heads = [.. table.Heads.Skip(1).Select(h => flow.Wrap(h, PdfInk.Small, _cellWidth - Gutter))];
        for (int i = 0; i < heads.Count; i++)
        {
            Cell(i, heads[i], PdfInk.Small, PdfInk.Muted);
        }

        flow.Y += heads.Max(h => h.Count) * PdfFlow.LineHeight(PdfInk.Small);
        Rule();
    }

    private void Breakable(double height)
    {
        if (flow.Room < height)
        {
            flow.NewPage();
            Heads();
        }
    }

    // Words begin at the left of their column, figures end at its right.
    private void Cell(int cell, List<string> lines, XFont font, XBrush ink)
    {
        if (table.IsText)
        {
            flow.WriteAt(lines, font, ink, RightEdge(cell) - _cellWidth + Gutter, flow.Y);
        }
        else
        {
            flow.WriteAt(lines, font, ink, 0, flow.Y, RightEdge(cell));
        }
    }

    private double RightEdge(int cell) => PdfFlow.Left + PdfFlow.Width - (_cellWidth * (table.Heads.Count - 2 - cell));

    private void Rule()
    {
        flow.Canvas.DrawLine(PdfInk.Hair, PdfFlow.Left, flow.Y, PdfFlow.Left + PdfFlow.Width, flow.Y);
        flow.Y += 3;
    }
}
