using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Report.Content;

/// <summary>A whole report, free of any page format: HTML and PDF are two ways to set it.</summary>
/// <param name="SiteName">The keeper's name for the ram; not to be trusted as markup.</param>
/// <param name="Source">What was analysed and when.</param>
/// <param name="Verdict">The sentences on top. A report with a first page shows the headline there, and the rest in the annex.</param>
/// <param name="Sections">Everything else, in reading order.</param>
internal sealed record ReportContent(string SiteName, string Source, Verdict Verdict, IReadOnlyList<Section> Sections)
{
    /// <summary>What follows the verdict on the first page; the sections are then an annex behind it. Empty where all is one run.</summary>
    public IReadOnlyList<Section> FirstPage { get; init; } = [];

    /// <summary>What kind of report this is, as its first line says.</summary>
    public string Kind { get; init; } = Phrases.Say("report.ram-report");

    /// <summary>Units that the keeper reads; a page that can switch starts with these.</summary>
    public Units Units { get; init; }
}

/// <summary>A part of the report under its own heading.</summary>
internal sealed record Section(string Id, string Title, IReadOnlyList<Block> Blocks)
{
    /// <summary>Its pictures speak for themselves: no heading is set above them.</summary>
    public bool IsBare { get; init; }

    /// <summary>Set small on paper, so that a page stays one page.</summary>
    public bool IsTight { get; init; }
}

/// <summary>A piece of a section.</summary>
internal abstract record Block;

/// <summary>A paragraph.</summary>
internal sealed record Paragraph(Rich Text) : Block;

/// <summary>A command to type, or a line of a file: set as it is, and never broken into words.</summary>
internal sealed record Code(string Text) : Block;

/// <summary>A list of sentences.</summary>
internal sealed record Bullets(IReadOnlyList<Rich> Items) : Block;

/// <summary>The few figures that matter most, set large.</summary>
internal sealed record Tiles(IReadOnlyList<Tile> Items) : Block;

/// <summary>One large figure; null where it is withheld.</summary>
internal sealed record Tile(string Name, Measure? Quantity, Rich Meaning);

/// <summary>A table whose first column names its rows.</summary>
internal sealed record Table(string Caption, IReadOnlyList<string> Heads, IReadOnlyList<TableGroup> Groups) : Block
{
    /// <summary>Its cells hold words, which stand to the left; figures stand to the right.</summary>
    public bool IsText { get; init; }
}

/// <summary>Rows that belong together.</summary>
internal sealed record TableGroup(string? Name, IReadOnlyList<TableRow> Rows);

/// <summary>One row.</summary>
internal sealed record TableRow(string Name, Rich Meaning, IReadOnlyList<Rich> Cells);

/// <summary>A plot with its caption.</summary>
internal sealed record PictureBlock(Drawing Drawing) : Block;

/// <summary>Something found wrong, or found well.</summary>
internal sealed record FindingBlock(Tone Tone, string Title, string Likelihood, IReadOnlyList<string> Evidence, string Advice) : Block;

/// <summary>Words that must not be overlooked.</summary>
internal sealed record Callout(Tone Tone, string Title, IReadOnlyList<Rich> Text) : Block;

/// <summary>Words and what they mean.</summary>
internal sealed record Terms(IReadOnlyList<(string Term, Rich Meaning)> Items) : Block;
