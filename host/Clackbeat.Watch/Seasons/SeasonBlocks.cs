using System.Globalization;
using Clackbeat.Report.Html;
using Clackbeat.Season.Wording;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Web;
using Clackbeat.Words;

namespace Clackbeat.Watch.Seasons;

/// <summary>Pieces that all pages of a ram are made of.</summary>
internal static class SeasonBlocks
{
    /// <summary>The head of a page, with the way back to all rams and to the ram's season.</summary>
    /// <param name="ask">What the reader asked for.</param>
    /// <param name="visitor">Who looks at it.</param>
    /// <param name="title">The page's heading.</param>
    /// <param name="lead">A line below it.</param>
    /// <param name="isDeeper">True for a page that lies behind the season's.</param>
    public static Markup Head(SeasonAsk ask, Visitor visitor, string title, string lead, bool isDeeper = false)
    {
        Markup back = isDeeper ? Markup.Of($"<li><a href=\"{ask.Link("/season")}\">{ask.Ram}</a></li>") : Markup.Empty;
        return Markup.Of(
            $"""
            {visitor.Line()}
            <nav aria-label="{Phrases.Say("season-page.way")}"><ul class="links"><li><a href="{ask.Link("/")}">{Phrases.Say("overview.title")}</a></li>{back}</ul></nav>
            <h1>{title}</h1>
            <p class="small">{lead}</p>
            """);
    }

    /// <summary>A part of a page.</summary>
    public static Markup Section(string id, string title, Markup content) => Markup.Of(
        $"""
        <section id="{id}" aria-labelledby="{id}-head">
        <h2 id="{id}-head">{title}</h2>
        {content}
        </section>

        """);

    /// <summary>A table whose rows stand below one another on a phone, each cell with its column's name.</summary>
    /// <param name="heads">Names of the columns.</param>
    /// <param name="rows">Cells; the first names the row.</param>
    public static Markup Table(IReadOnlyList<string> heads, IEnumerable<IEnumerable<Markup>> rows) => Markup.Of(
        $"""
        <table class="stack"><thead><tr>{heads.Select(h => Markup.Of($"<th scope=\"col\">{h}</th>"))}</tr></thead>
        <tbody>{rows.Select(r => Row(heads, [.. r]))}</tbody></table>
        """);

    /// <summary>What a form carries without showing it.</summary>
    public static IEnumerable<Markup> Hidden(IEnumerable<(string Name, string Value)> fields) =>
        fields.Select(f => Markup.Of($"<input type=\"hidden\" name=\"{f.Name}\" value=\"{f.Value}\">"));

    /// <summary>A figure's name, and the supply head that it is brought to, if any [m].</summary>
    public static string Title(SeasonUnit unit, double? levelM, Units units) => levelM is { } head
        ? Phrases.Say("season-page.at-level", ("figure", unit.Name), ("head", Phrases.Format(QuantityKind.Length, head, units)))
        : unit.Name;

    /// <summary>The day by the clock on the wall.</summary>
    public static DateOnly DayOf(DateTimeOffset time) => DateOnly.FromDateTime(time.LocalDateTime);

    /// <summary>A time by the clock on the wall, to the minute.</summary>
    public static string Minute(DateTimeOffset time) => time.LocalDateTime.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);

    /// <summary>A number of days in an address.</summary>
    public static string Days(int days) => days.ToString(CultureInfo.InvariantCulture);

    private static Markup Row(IReadOnlyList<string> heads, IReadOnlyList<Markup> cells) => Markup.Of(
        $"<tr><th scope=\"row\">{cells[0]}</th>{cells.Skip(1).Select((c, i) => Markup.Of($"<td data-label=\"{heads[i + 1]}\"><span>{c}</span></td>"))}</tr>\n");
}
