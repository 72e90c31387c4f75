using Clackbeat.Report.Content;
using Clackbeat.Report.Fonts;
using Clackbeat.Report.Wording;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Report.Html;

/// <summary>Sets a report as one HTML file that asks for nothing from outside and runs no script.</summary>
internal static class HtmlReport
{
    public static string Write(ReportContent content) => Markup.Of(
        $"""
        <!DOCTYPE html>
        <html lang="{Catalogue.Current.Language.Code}">
        <head>
        <meta charset="utf-8">
        <meta name="viewport" content="width=device-width, initial-scale=1">
        <meta name="color-scheme" content="light dark">
        <meta name="referrer" content="no-referrer">
        <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:">
        <title>{content.SiteName}: {content.Kind.ToLowerInvariant()}</title>
        <style>{Fonts()}{Markup.Trusted(ReportFont.Text("pictures.css") + ReportFont.Text("report.css"))}</style>
        </head>
        <body>
        <a class="skip" href="#verdict">{Phrases.Say("report.to-the-verdict")}</a>
        <input class="pick" type="radio" name="units" id="units-metric" aria-label="{Phrases.Say("report.metric-units")}"{Checked(content.Units == Units.Metric)}>
        <input class="pick" type="radio" name="units" id="units-us" aria-label="{Phrases.Say("report.us-customary-units")}"{Checked(content.Units == Units.Us)}>
        <div class="page">
        <header>
        <p class="kind">{content.Kind}</p>
        <h1><bdi>{content.SiteName}</bdi></h1>
        <p class="source">{content.Source}</p>
        <p class="units"><label for="units-metric">{Phrases.Say("report.metric")}</label><label for="units-us">{Phrases.Say("report.us-units")}</label></p>
        </header>
        <main>
        {Verdict(content)}
        {content.FirstPage.Select(Section)}
        {AnnexHead(content)}
        <nav aria-label="{Phrases.Say("report.parts-of-this-report")}"><ul>{content.Sections.Select(s => Markup.Of($"<li><a href=\"#{s.Id}\">{s.Title}</a></li>"))}</ul></nav>
        {content.Sections.Select(Section)}
        </main>
        <footer><p>{Phrases.Say("report.keep-this-file")}</p></footer>
        </div>
        </body>
        </html>

        """).Text;

    private static Markup Checked(bool isChecked) => isChecked ? Markup.Trusted(" checked") : Markup.Empty;

    private static Markup Fonts() => Markup.Trusted(Face(bold: false) + Face(bold: true));

    private static string Face(bool bold) =>
        $"@font-face{{font-family:\"{ReportFont.Family}\";font-weight:{(bold ? "600 900" : "100 599")};font-display:swap;"
        + $"src:url(data:font/woff2;base64,{Convert.ToBase64String(ReportFont.WebLatin(bold))}) format(\"woff2\")}}\n";

    private static Markup Verdict(ReportContent content) => Markup.Of(
        $"""
        <section id="verdict" class="verdict {Class(content.Verdict.Tone)}" aria-labelledby="verdict-head">
        <p class="label">{Sign(content.Verdict.Tone)}{content.Verdict.Label}</p>
        <h2 id="verdict-head">{content.Verdict.Headline}</h2>
        {(content.FirstPage.Count > 0 ? Enumerable.Empty<Markup>() : Sentences(content.Verdict))}
        </section>
        """);

    private static IEnumerable<Markup> Sentences(Verdict verdict) => verdict.Sentences.Select(s => Markup.Of($"<p>{s}</p>\n"));

    private static Markup AnnexHead(ReportContent content) => content.FirstPage.Count == 0
        ? Markup.Empty
        : Markup.Of(
            $"""
            <section id="annex" class="annex" aria-labelledby="annex-head">
            <h2 id="annex-head">{Phrases.Say("report.annex")}</h2>
            {Sentences(content.Verdict)}
            </section>
            """);

    private static Markup Section(Section section) => Markup.Of(
        $"""
        <section id="{section.Id}" aria-labelledby="{section.Id}-head">
        <h2 id="{section.Id}-head"{Markup.Trusted(section.IsBare ? " class=\"skip\"" : "")}>{section.Title}</h2>
        {section.Blocks.Select(Block)}
        </section>

        """);

    private static Markup Block(Block block) => block switch
    {
        Paragraph p => Markup.Of($"<p>{p.Text}</p>\n"),
        Code c => Markup.Of($"<pre class=\"code\">{c.Text.Split('\n').Select(Line)}</pre>\n"),
        Bullets b => Markup.Of($"<ul class=\"list\">{b.Items.Select(i => Markup.Of($"<li>{i}</li>\n"))}</ul>\n"),
        Tiles t => Markup.Of($"<dl class=\"tiles\">{t.Items.Select(Tile)}</dl>\n"),
        Terms t => Markup.Of($"<dl class=\"terms\">{t.Items.Select(i => Markup.Of($"<div><dt>{i.Term}</dt><dd>{i.Meaning}</dd></div>\n"))}</dl>\n"),
        Callout c => Markup.Of($"<div class=\"callout {Class(c.Tone)}\"><h3>{Sign(c.Tone)}{c.Title}</h3>{c.Text.Select(t => Markup.Of($"<p>{t}</p>"))}</div>\n"),
        FindingBlock f => Finding(f),
        PictureBlock p => FigureMarkup.Of(p.Drawing),
        Table t => Table(t),
        _ => throw new InvalidOperationException($"No HTML for {block.GetType().Name}."),
    };

    // A command breaks between its words and never within one: half an option can't be typed.
    private static Markup Line(string line) => Markup.Of($"<span class=\"line\">{line.Split(' ').Select(word => Markup.Of($"<span class=\"word\">{word}</span> "))}</span>");

    private static Markup Tile(Tile tile) => Markup.Of(
        $"<div><dt>{tile.Name}</dt><dd class=\"big\">{(tile.Quantity is { } q ? Big(q) : Markup.Of($"<span class=\"none\">{ReportWords.NotGiven}</span>"))}</dd><dd>{tile.Meaning}</dd></div>\n");

    private static Markup Big(Measure quantity) => quantity.Metric == quantity.Us
        ? Big(quantity.Metric)
        : Markup.Of($"<span class=\"m\">{Big(quantity.Metric)}</span><span class=\"us\">{Big(quantity.Us)}</span>");

    private static Markup Big(MeasureText text)
    {
        Markup margin = text.Margin.Length == 0 ? Markup.Empty : Markup.Of($" <span class=\"pm\">±\u00A0{text.Margin}</span>");
        Markup most = text.IsUpperBound ? Markup.Of($"<span class=\"pm\">{MeasureText.AtMost}</span> ") : Markup.Empty;
        return Markup.Of($"{most}{text.Value}{margin} <span class=\"unit\">{text.Unit}</span>");
    }

    private static Markup Finding(FindingBlock finding)
    {
        Markup evidence = finding.Evidence.Count == 0
            ? Markup.Empty
            : Markup.Of($"<h4>{Phrases.Say("report.what-in-the-beat-says-so")}</h4><ul class=\"list\">{finding.Evidence.Select(e => Markup.Of($"<li>{e}</li>"))}</ul>");
        Markup advice = finding.Advice.Length == 0 ? Markup.Empty : Markup.Of($"<h4>{ReportWords.Advice}</h4><p>{finding.Advice}</p>");
        return Markup.Of(
            $"<article class=\"callout {Class(finding.Tone)}\"><h3>{Sign(finding.Tone)}{finding.Title}</h3><p class=\"odds\">{finding.Likelihood}</p>{evidence}{advice}</article>\n");
    }

    private static Markup Table(Table table) => Markup.Of(
        $"""
        <div class="scroll" role="region" aria-label="{table.Caption}" tabindex="0">
        <table{Markup.Trusted(table.IsText ? " class=\"text stack\"" : Stacks(table) ? " class=\"stack\"" : "")}>
        <caption{Markup.Trusted(table.IsText ? " class=\"skip\"" : "")}>{table.Caption}</caption>
        <thead><tr>{table.Heads.Select(h => Markup.Of($"<th scope=\"col\">{h}</th>"))}</tr></thead>
        {table.Groups.Select(g => Group(g, table))}
        </table>
        </div>

        """);

    private static Markup Group(TableGroup group, Table table)
    {
        Markup head = group.Name is null
            ? Markup.Empty
            : Markup.Of($"<tr class=\"group\"><th scope=\"rowgroup\" colspan=\"{Digits.Count(table.Heads.Count)}\">{group.Name}</th></tr>");
        return Markup.Of($"<tbody>{head}{group.Rows.Select(r => Row(r, table))}</tbody>\n");
    }

    // Three figures beside a name leave none of them room for its ± and its unit.
    private static bool Stacks(Table table) => table.IsText || table.Heads.Count > 2;

    // On a phone the cells of words stand one below the other, each with its column's head.
    private static Markup Row(TableRow row, Table table)
    {
        Markup meaning = row.Meaning.Runs.Count == 0 ? Markup.Empty : Markup.Of($"<small>{row.Meaning}</small>");
        return Markup.Of($"<tr><th scope=\"row\">{row.Name}{meaning}</th>{row.Cells.Select((c, i) => Stacks(table) ? Markup.Of($"<td data-head=\"{table.Heads[i + 1]}\">{c}</td>") : Markup.Of($"<td>{c}</td>"))}</tr>\n");
    }

    private static string Class(Tone tone) => tone switch
    {
        Tone.Well => "well",
        Tone.Look => "look",
        Tone.Stop => "stop",
        _ => "plain",
    };

    // A shape beside the colour, so that the tone survives a grey print and a colour-blind eye.
    private static Markup Sign(Tone tone) => Markup.Trusted(tone switch
    {
        Tone.Well => "<svg class=\"sign\" viewBox=\"0 0 24 24\" aria-hidden=\"true\"><circle cx=\"12\" cy=\"12\" r=\"11\"/><path d=\"M6.5 12.5l3.8 3.8 7.2-8\"/></svg>",
        Tone.Look => "<svg class=\"sign\" viewBox=\"0 0 24 24\" aria-hidden=\"true\"><polygon points=\"12,1.5 23,21.5 1,21.5\"/><path d=\"M12 9v6M12 18v.5\"/></svg>",
        Tone.Stop => "<svg class=\"sign\" viewBox=\"0 0 24 24\" aria-hidden=\"true\"><polygon points=\"7.4,1 16.6,1 23,7.4 23,16.6 16.6,23 7.4,23 1,16.6 1,7.4\"/><path d=\"M12 6v8M12 17.5v.5\"/></svg>",
        _ => "<svg class=\"sign\" viewBox=\"0 0 24 24\" aria-hidden=\"true\"><circle cx=\"12\" cy=\"12\" r=\"11\"/><path d=\"M12 11v6M12 7v.5\"/></svg>",
    });
}
