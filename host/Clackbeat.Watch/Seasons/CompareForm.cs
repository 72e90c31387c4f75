using Clackbeat.Report.Html;
using Clackbeat.Season.Wording;
using Clackbeat.Words;

namespace Clackbeat.Watch.Seasons;

/// <summary>The form that asks for two periods to compare.</summary>
/// <param name="ask">What the reader asked for.</param>
internal sealed class CompareForm(SeasonAsk ask)
{
    /// <summary>Names of the fields: first and last day of the first and of the second period.</summary>
    public static readonly string[] Names = ["a-from", "a-to", "b-from", "b-to"];

    /// <summary>Two periods in an address.</summary>
    public static (string Name, string Value)[] Periods(params DateOnly[] days) => [.. Names.Zip(days, (name, day) => (name, SeasonText.Day(day)))];

    /// <summary>The form, filled in with the first and the last month of a season.</summary>
    /// <param name="from">First day of the season.</param>
    /// <param name="to">Last day.</param>
    public Markup Write(DateOnly from, DateOnly to) => Write([from, from.AddDays(29), to.AddDays(-29), to]);

    /// <summary>The form, filled in with two periods.</summary>
    /// <param name="days">First and last day of each.</param>
    public Markup Write(IReadOnlyList<DateOnly> days) => Markup.Of(
        $"""
        <form action="/compare" method="get">
        {SeasonBlocks.Hidden(ask.Fields())}
        <fieldset><legend>{Phrases.Say("season-page.before")}</legend>{Day(0, days)}{Day(1, days)}</fieldset>
        <fieldset><legend>{Phrases.Say("season-page.after")}</legend>{Day(2, days)}{Day(3, days)}</fieldset>
        <button class="main">{Phrases.Say("season-page.do-compare")}</button>
        </form>
        <p class="small">{Phrases.Say("season-page.compare-bursts")}</p>
        """);

    private static Markup Day(int field, IReadOnlyList<DateOnly> days) => Markup.Of(
        $"<div><label for=\"{Names[field]}\">{Phrases.Say(field % 2 == 0 ? "season-page.from" : "season-page.to")}</label><input id=\"{Names[field]}\" name=\"{Names[field]}\" type=\"date\" required value=\"{SeasonText.Day(days[field])}\"></div>");
}
