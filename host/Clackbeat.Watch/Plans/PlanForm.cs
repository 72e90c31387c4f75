using System.Text;
using System.Text.Encodings.Web;
using System.Text.Unicode;
using Clackbeat.Planning.Bills;
using Clackbeat.Planning.Demand;
using Clackbeat.Planning.Pipework;
using Clackbeat.Planning.Wishes;
using Clackbeat.Report.Html;
using Clackbeat.Site.Files;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Web;
using Clackbeat.Words;

namespace Clackbeat.Watch.Plans;

/// <summary>The form of the plan's page, as HTML without any script. Whatever was typed is encoded.</summary>
/// <param name="typed">What stands in a field; nothing where it is empty.</param>
/// <param name="units">Units of the hints.</param>
internal sealed class PlanForm(Func<string, IReadOnlyList<string>> typed, Units units)
{
    private static readonly HtmlEncoder Encoder = HtmlEncoder.Create(UnicodeRanges.All);

    /// <summary>Text of a field that names people, animals or prices: one field each, <c>use-person</c> or <c>price-ram</c>.</summary>
    public const char Dash = '-';

    /// <summary>The page.</summary>
    /// <param name="trouble">A heading and what is to be told above the form; null for nothing.</param>
    public string Write((string Heading, string Text)? trouble) =>
        PageShell.Served(Catalogue.Current.Say("plan.title"), ["plan.css"], Markup.Trusted(Body(trouble)));

    private string Body((string Heading, string Text)? trouble) => $"""
        <h1>{Say("plan.title")}</h1>
        <p>{Say("plan-page.lead")}</p>
        {Trouble(trouble)}
        <form action="/plan" method="get">
        {Choice("units", "plan-page.units", [("metric", "plan-page.metric"), ("us", "plan-page.us")], units == Units.Us ? "us" : "metric")}
        <div class="first">
        {Field(WishFields.SupplyHead, "3 m", "10 ft", true)}
        {Field(WishFields.SupplyFlow, "60 L/min", "16 gpm", true)}
        {Field(WishFields.Lift, "25 m", "80 ft", true)}
        </div>
        {Field(WishFields.DryFlow, "30 L/min", "8 gpm")}
        {Field(WishFields.DeliveryLength, "120 m", "400 ft")}
        {Choice(WishFields.Kind, "plan-page.ram-kind", [("unknown", "plan-page.kind-unknown"), ("cast", "plan-page.kind-cast"), ("home-made", "plan-page.kind-home-made")], One(WishFields.Kind))}
        <details{Open(NeedFields)}>
        <summary>{Say("plan-page.needed")}</summary>
        {Field(WishFields.Need, "3000 L/day", "800 gal/day")}
        <div class="few">
        {string.Concat(NeedRate.All.Select(r => Number($"{WishFields.Use}{Dash}{r.Item}", $"plan-page.use-{r.Item}")))}
        </div>
        {Field(WishFields.Irrigate, "400 = 0, 0, 1, 2, 4, 5, 5, 4, 3, 1, 0, 0", "400 = 0, 0, 1, 2, 4, 5, 5, 4, 3, 1, 0, 0")}
        {Field(WishFields.NeedMonths, "0, 0, 0, 500, 900, 1500, 1800, 1500, 900, 0, 0, 0 L/day", "0, 0, 0, 130, 240, 400, 480, 400, 240, 0, 0, 0 gal/day")}
        {Field(WishFields.Shortfall, "2 %", "2 %")}
        </details>
        <details{Open(PlaceFields)}>
        <summary>{Say("plan-page.more")}</summary>
        {Field(WishFields.SupplyMonths, "60, 60, 55, 50, 45, 35, 25, 20, 30, 45, 60, 60 L/min", "16, 16, 15, 13, 12, 9, 7, 5, 8, 12, 16, 16 gpm")}
        {Field(WishFields.DriveLength, "8 m to 30 m", "25 ft to 100 ft")}
        {Choice(WishFields.Material, "plan-page.drive-material", [.. DriveSize.Materials.Select(m => (MaterialNames.Of(m), $"materials.{m}"))], One(WishFields.Material))}
        {Field(WishFields.Temperature, "12 °C", "54 °F")}
        {Field(WishFields.SunHours, "4.5", "4.5")}
        </details>
        <details{Open(PriceFields)}>
        <summary>{Say("plan-page.prices")}</summary>
        <p class="how">{Say("plan-page.prices-how")}</p>
        <div class="few">
        {string.Concat(PriceNames.All.Select(p => Number($"{WishFields.Price}{Dash}{p}", $"plan.{p}")))}
        </div>
        </details>
        <p class="do"><button class="main">{Say("plan-page.plan")}</button>
        <button name="as" value="pdf">{Say("plan-page.as-pdf")}</button>
        <button name="as" value="site">{Say("plan-page.as-site")}</button></p>
        </form>
        """;

    private static IEnumerable<string> NeedFields =>
        [WishFields.Need, WishFields.NeedMonths, WishFields.Irrigate, WishFields.Shortfall, .. NeedRate.All.Select(r => $"{WishFields.Use}{Dash}{r.Item}")];

    private static IEnumerable<string> PlaceFields =>
        [WishFields.SupplyMonths, WishFields.DriveLength, WishFields.Temperature, WishFields.SunHours];

    private static IEnumerable<string> PriceFields => PriceNames.All.Select(p => $"{WishFields.Price}{Dash}{p}");

    private string Field(string name, string metric, string us, bool isRequired = false)
    {
        string hint = units == Units.Us ? us : metric;
        return $"""
            <label for="{name}">{Say($"plan-page.{name}")}</label>
            {How(name)}<input id="{name}" name="{name}" value="{Encode(One(name))}" placeholder="{Encode(hint)}" autocomplete="off"{(isRequired ? " required" : "")}>

            """;
    }

    private string Number(string name, string key) => $"""
        <div><label for="{name}">{Say(key)}</label><input id="{name}" name="{name}" value="{Encode(One(name))}" inputmode="decimal" autocomplete="off"></div>

        """;

    private static string How(string name) => Catalogue.English.Phrases.ContainsKey($"plan-page.{name}-how")
        ? $"<p class=\"how\">{Say($"plan-page.{name}-how")}</p>"
        : "";

    private static string Choice(string name, string key, IReadOnlyList<(string Value, string Key)> choices, string chosen)
    {
        var html = new StringBuilder($"<label for=\"{name}\">{Say(key)}</label><select id=\"{name}\" name=\"{name}\">");
        foreach ((string value, string word) in choices)
        {
            html.Append($"<option value=\"{Encode(value)}\"{(value == chosen ? " selected" : "")}>{Say(word)}</option>");
        }

        return html.Append("</select>").ToString();
    }

    private static string Trouble((string Heading, string Text)? trouble) => trouble is { } told
        ? $"<section class=\"trouble\" role=\"alert\"><h2>{Encode(told.Heading)}</h2><p>{Encode(told.Text)}</p></section>"
        : "";

    private string Open(IEnumerable<string> fields) => fields.Any(f => One(f).Length > 0) ? " open" : "";

    private string One(string name) => typed(name) is [{ } text, ..] ? text : "";

    private static string Say(string key) => Encode(Catalogue.Current.Say(key));

    private static string Encode(string words) => Encoder.Encode(words);
}
