using System.Globalization;
using Clackbeat.Report.Html;
using Clackbeat.Season.Store;
using Clackbeat.Season.Wording;
using Clackbeat.Watch.Web;
using Clackbeat.Words;

namespace Clackbeat.Watch.Seasons;

/// <summary>What a keeper can do on a ram's pages, and what was corrected so far. A reader sees the corrections only.</summary>
/// <param name="ask">What the reader asked for.</param>
/// <param name="visitor">Who looks at it.</param>
internal sealed class KeeperForms(SeasonAsk ask, Visitor visitor)
{
    /// <summary>Characters of a mark or a reason at most.</summary>
    public const int LongestWords = 200;

    /// <summary>Adds a mark, or changes one or takes it out.</summary>
    /// <param name="marks">The marks, oldest first.</param>
    public Markup Marks(IReadOnlyList<MaintenanceMark> marks) => !visitor.IsKeeper ? Markup.Empty : SeasonBlocks.Section(
        "marks", Phrases.Say("keeper.marks"),
        Markup.Of(
            $"""
            {Form("/marks/add", Markup.Of($"{When("add-at", null)}{Text("add-words", "words", "keeper.words", "")}<button class=\"main\">{Phrases.Say("keeper.add")}</button>"))}
            {marks.Reverse().Select((m, i) => Mark(m, i))}
            """));

    /// <summary>Takes a burst out.</summary>
    /// <param name="bursts">Bursts to choose from.</param>
    public Markup Bursts(IReadOnlyList<SeasonBurst> bursts) => !visitor.IsKeeper || bursts.Count == 0 ? Markup.Empty : SeasonBlocks.Section(
        "remove", Phrases.Say("keeper.take-out"),
        Form("/bursts/remove", Markup.Of(
            $"""
            <div><label for="burst">{Phrases.Say("keeper.burst")}</label><select id="burst" name="burst">{bursts.Select(b => Markup.Of($"<option value=\"{Convert.ToHexString(b.SourceHash)}\">{JournalText.Time(b.StartUtc)}</option>"))}</select></div>
            <input type="hidden" name="day" value="{SeasonText.Day(SeasonBlocks.DayOf(bursts[0].StartUtc))}">
            {Text("burst-why", "why", "keeper.why", "")}<button class="main">{Phrases.Say("keeper.remove")}</button>
            """)));

    /// <summary>What was corrected, the latest first, each with the way back.</summary>
    /// <param name="entries">The journal, oldest first.</param>
    public Markup Journal(IReadOnlyList<JournalEntry> entries) => entries.Count == 0 ? Markup.Empty : SeasonBlocks.Section(
        "journal", Phrases.Say("keeper.journal"),
        Markup.Of($"<ul class=\"events\">{entries.Reverse().Select(e => Markup.Of($"<li>{JournalText.Of(e)}{Undo(e)}</li>\n"))}</ul>"));

    private Markup Undo(JournalEntry entry) => !visitor.IsKeeper || entry.Action == JournalAction.Undone
        ? Markup.Empty
        : Form("/undo", Markup.Of(
            $"<input type=\"hidden\" name=\"number\" value=\"{entry.Number.ToString(CultureInfo.InvariantCulture)}\"><button aria-label=\"{Phrases.Say("keeper.undo-number", ("number", entry.Number))}\">{Phrases.Say("keeper.undo")}</button>"));

    private Markup Mark(MaintenanceMark mark, int number)
    {
        string id = "mark-" + number.ToString(CultureInfo.InvariantCulture);
        return Markup.Of(
            $"""
            <details><summary>{SeasonBlocks.Minute(mark.AtUtc)} {mark.Words}</summary>
            {Form("/marks/change", Markup.Of(
                $"""
                <input type="hidden" name="was-at" value="{mark.AtUtc.ToString("O", CultureInfo.InvariantCulture)}"><input type="hidden" name="was-words" value="{mark.Words}">
                {When(id + "-at", mark.AtUtc)}{Text(id + "-words", "words", "keeper.words", mark.Words)}{Text(id + "-why", "why", "keeper.why", "")}
                <button class="main" name="do" value="change">{Phrases.Say("keeper.change")}</button><button name="do" value="remove">{Phrases.Say("keeper.remove")}</button>
                """))}
            </details>

            """);
    }

    private Markup Form(string path, Markup fields) => Markup.Of($"<form action=\"{ask.Link(path)}\" method=\"post\">{visitor.Proof}{fields}</form>");

    private static Markup When(string id, DateTimeOffset? at) => Markup.Of(
        $"<div><label for=\"{id}\">{Phrases.Say("keeper.at")}</label><input id=\"{id}\" name=\"at\" type=\"datetime-local\" value=\"{at?.LocalDateTime.ToString("yyyy-MM-ddTHH:mm", CultureInfo.InvariantCulture) ?? ""}\"></div>");

    private static Markup Text(string id, string name, string key, string value) => Markup.Of(
        $"<div><label for=\"{id}\">{Catalogue.Current.Say(key)}</label><input id=\"{id}\" name=\"{name}\" required maxlength=\"{LongestWords.ToString(CultureInfo.InvariantCulture)}\" autocomplete=\"off\" value=\"{value}\"></div>");
}
