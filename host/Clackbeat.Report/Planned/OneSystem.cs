using Clackbeat.Report.Content;
using Clackbeat.Report.Wording;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Report.Planned;

/// <summary>A page for paper in the reader's own units alone: what goes to a shop names each size once.</summary>
internal static class OneSystem
{
    /// <summary>The page in the units it begins with.</summary>
    public static ReportContent Of(ReportContent content) => content with
    {
        Verdict = content.Verdict with
        {
            Headline = Of(content.Verdict.Headline, content.Units),
            Sentences = [.. content.Verdict.Sentences.Select(s => Of(s, content.Units))],
        },
        Sections = [.. content.Sections.Select(s => s with { Blocks = [.. s.Blocks.Select(b => Of(b, content.Units))] })],
    };

    private static Block Of(Block block, Units units) => block switch
    {
        Paragraph p => new Paragraph(Of(p.Text, units)),
        Bullets b => new Bullets([.. b.Items.Select(i => Of(i, units))]),
        Tiles t => new Tiles([.. t.Items.Select(i => new Tile(i.Name, i.Quantity is { } q ? Of(q, units) : null, Of(i.Meaning, units)))]),
        Terms t => new Terms([.. t.Items.Select(i => (i.Term, Of(i.Meaning, units)))]),
        Callout c => c with { Text = [.. c.Text.Select(t => Of(t, units))] },
        Table t => t with { Groups = [.. t.Groups.Select(g => g with { Rows = [.. g.Rows.Select(r => Of(r, units))] })] },
        _ => block,
    };

    private static TableRow Of(TableRow row, Units units) => new(row.Name, Of(row.Meaning, units), [.. row.Cells.Select(c => Of(c, units))]);

    private static Rich Of(Rich text, Units units) => new([.. text.Runs.Select(r => r.Quantity is { } q ? new Run(null, Of(q, units)) : r)]);

    private static Measure Of(Measure quantity, Units units) => units == Units.Us ? new(quantity.Us, quantity.Us) : new(quantity.Metric, quantity.Metric);
}
