using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Unicode;
using Clackbeat.Report.Html;
using Clackbeat.Season.Overview;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Web;
using Clackbeat.Words;

namespace Clackbeat.Watch.Overview;

/// <summary>What a reader asked the page for.</summary>
/// <param name="Units">Units.</param>
/// <param name="VisitsOnly">Only rams that need a visit.</param>
/// <param name="Find">Part of a ram's or a keeper's name; empty for all.</param>
internal sealed record OverviewAsked(Units Units, bool VisitsOnly, string Find);

/// <summary>All rams on one page, as HTML without any script, the one that needs a visit most first.</summary>
/// <param name="visits">The rams as they were judged.</param>
/// <param name="atUtc">As of when.</param>
/// <param name="asked">What the reader asked for.</param>
internal sealed class OverviewPage(IReadOnlyList<RamVisit> visits, DateTimeOffset atUtc, OverviewAsked asked)
{
    private static readonly HtmlEncoder Encoder = HtmlEncoder.Create(UnicodeRanges.All);

    /// <summary>The page.</summary>
    /// <param name="head">What brings in the style: a link, or the style itself.</param>
    /// <param name="visitor">Who looks at it; null where no server answers its form and links.</param>
    public string Write(Markup head, Visitor? visitor)
    {
        bool isServed = visitor is not null;
        RamVisit[] shown = [.. visits.Where(IsAsked)];
        string map = OverviewMap.Of(shown, asked.Units, Encoder);
        return PageShell.Write(
            Phrases.Say("overview.title"),
            head,
            Markup.Trusted(
                $"""
                {visitor?.Line()}
                <h1>{Encode(OverviewWords.Headline(visits))}</h1>
                <p class="small">{Encode(Phrases.Say("overview.made", ("when", atUtc.ToLocalTime().ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture))))}</p>
                {(isServed ? Form() : "")}
                {(shown.Length == 0 ? $"<p>{Say("overview.nothing-found")}</p>" : Table(shown, isServed))}
                {(map.Length == 0 ? "" : $"<h2>{Say("overview.map")}</h2>{map}")}
                <p class="small">{Say("overview.how")}{(shown.Any(v => v.DailyM3PerS is { IsUpperBound: true }) ? " " + Say("overview.how-bound") : "")}</p>
                """));
    }

    private bool IsAsked(RamVisit visit) =>
        (!asked.VisitsOnly || visit.Urgency != VisitUrgency.None)
        && (visit.Summary.Ram.Contains(asked.Find, StringComparison.OrdinalIgnoreCase)
            || visit.Entry?.Keeper.Contains(asked.Find, StringComparison.OrdinalIgnoreCase) == true);

    private string Form() => $"""
        <form action="/" method="get">
        {Hidden(Reader.Language, Catalogue.Current.Language.Code)}
        <div><label for="show">{Say("overview.show")}</label><select id="show" name="show">{Option("all", "overview.show-all", !asked.VisitsOnly)}{Option("visits", "overview.show-visits", asked.VisitsOnly)}</select></div>
        <div><label for="find">{Say("overview.find")}</label><input id="find" name="find" value="{Encode(asked.Find)}" autocomplete="off"></div>
        <div><label for="units">{Say("overview.units")}</label><select id="units" name="units">{Option("metric", "overview.metric", asked.Units == Units.Metric)}{Option("us", "overview.us", asked.Units == Units.Us)}</select></div>
        <button class="main">{Say("overview.apply")}</button>
        </form>
        """;

    private string Table(IEnumerable<RamVisit> shown, bool isServed)
    {
        var html = new StringBuilder("<table class=\"rams\"><thead><tr>");
        foreach (string column in (string[])[Say("overview.ram"), Say("overview.state"), Say("overview.water"), Say("overview.pipe"), Say("overview.to-do")])
        {
            html.Append("<th scope=\"col\">").Append(column).Append("</th>");
        }

        html.Append("</tr></thead><tbody>");
        foreach (RamVisit visit in shown)
        {
            html.Append(Row(visit, isServed));
        }

        return html.Append("</tbody></table>").ToString();
    }

    private string Row(RamVisit visit, bool isServed)
    {
        string name = Encode(visit.Summary.Ram);
        string linked = isServed ? $"<a href=\"{Encode(SeasonOf(visit.Summary.Ram))}\">{name}</a>" : name;
        return $"""
            <tr data-urgency="{UrgencyWord(visit.Urgency)}">
            <th scope="row"><svg class="sign" viewBox="-10 -10 20 20" aria-hidden="true">{OverviewMap.Mark(visit.Urgency)}</svg>{linked}<span class="small">{Urgency(visit)}</span></th>
            <td data-label="{Say("overview.state")}">{State(visit)}</td>
            <td data-label="{Say("overview.water")}">{Water(visit)}</td>
            <td data-label="{Say("overview.pipe")}">{(visit.Summary.RatingUse is { } use ? Percent(use.Week.Value) : Say("overview.unknown"))}</td>
            <td data-label="{Say("overview.to-do")}">{ToDo(visit)}</td>
            </tr>

            """;
    }

    private string SeasonOf(string ram) =>
        $"/season?ram={Uri.EscapeDataString(ram)}&{Reader.Language}={Catalogue.Current.Language.Code}&units={(asked.Units == Units.Us ? "us" : "metric")}";

    private static string Urgency(RamVisit visit) => Lines(
        OverviewWords.Urgency(visit), visit.Entry is { Keeper.Length: > 0 } entry ? Phrases.Say("overview.keeper", ("keeper", entry.Keeper)) : null);

    private string State(RamVisit visit) => Lines(OverviewWords.State(visit), OverviewWords.Heard(visit, atUtc));

    private string Water(RamVisit visit) => visit.DailyM3PerS is not { } water ? Say("overview.unknown") : Lines(
        DailyWater.Text(water, asked.Units),
        visit.ShareOfNeed is { } need ? Phrases.Say("overview.of-need", ("share", need)) : null,
        visit.ShareOfUsual is { } usual ? Phrases.Say("overview.of-usual", ("share", usual)) : null);

    private static string ToDo(RamVisit visit) => Lines(
        [
            .. OverviewWords.Reasons(visit),
            OverviewWords.ToDo(visit),
            visit.Summary.LastMark is { } mark
                ? Phrases.Say("overview.last-visit", ("day", mark.AtUtc.ToLocalTime().ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)), ("words", mark.Words))
                : null,
        ]);

    private static string Lines(params string?[] words) => string.Join("", words.OfType<string>().Select(w => $"<span>{Encode(w)}</span>"));

    private static string Percent(double share) => Encode(Phrases.Number(Rounding.Fixed(100 * share, 0)) + "\u00a0%");

    private static string UrgencyWord(VisitUrgency urgency) => urgency switch
    {
        VisitUrgency.Now => "now",
        VisitUrgency.Soon => "soon",
        _ => "none",
    };

    private static string Hidden(string name, string value) => $"<input type=\"hidden\" name=\"{name}\" value=\"{Encode(value)}\">";

    private static string Option(string value, string key, bool isChosen) => $"<option value=\"{value}\"{(isChosen ? " selected" : "")}>{Say(key)}</option>";

    private static string Say(string key) => Encode(Catalogue.Current.Say(key));

    private static string Encode(string words) => Encoder.Encode(words);
}
