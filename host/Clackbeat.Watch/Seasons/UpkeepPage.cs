using Clackbeat.Report.Html;
using Clackbeat.Season.Upkeep;
using Clackbeat.Season.Wording;
using Clackbeat.Watch.Web;
using Clackbeat.Words;

namespace Clackbeat.Watch.Seasons;

/// <summary>What is due at a ram, with the way to say that it was done, and to the sheet for the wall.</summary>
/// <param name="ask">What the reader asked for.</param>
/// <param name="visitor">Who looks at it.</param>
internal sealed class UpkeepPage(SeasonAsk ask, Visitor visitor)
{
    /// <summary>Where a keeper says that a check was done.</summary>
    public const string DonePath = "/upkeep/done";

    /// <summary>The page.</summary>
    /// <param name="checks">The checks, the most pressing first.</param>
    public string Write(IReadOnlyList<UpkeepDue> checks)
    {
        int due = checks.Count(c => c.IsDue);
        return PageShell.Served(
            Phrases.Say("upkeep.title"), ["pages.css", "season.css"],
            Markup.Of(
                $"""
                {SeasonBlocks.Head(ask, visitor, Phrases.Say("upkeep.title"), due > 0 ? Phrases.Say("upkeep.headline", ("due", due)) : Phrases.Say("upkeep.headline-none"), isDeeper: true)}
                <p><a href="{ask.Link("/upkeep/sheet")}">{Phrases.Say("upkeep.sheet")}</a></p>
                {SeasonBlocks.Section("checks", Phrases.Say("upkeep.checks"), Checks(checks))}
                {Done(checks)}
                """));
    }

    private static Markup Checks(IReadOnlyList<UpkeepDue> checks) => Markup.Of(
        $"""
        {SeasonBlocks.Table(
            [Phrases.Say("upkeep.what"), Phrases.Say("upkeep.standing"), Phrases.Say("upkeep.every"), Phrases.Say("upkeep.gone-by")],
            checks.Select(c => (IEnumerable<Markup>)[Markup.Of($"{UpkeepText.Task(c)}"), Standing(c), Markup.Of($"{UpkeepText.Every(c.Interval)}"), Markup.Of($"{UpkeepText.Since(c)}")]))}
        <p class="small">{Phrases.Say("upkeep.practice")}</p>
        """);

    private static Markup Standing(UpkeepDue check) =>
        check.IsDue ? Markup.Of($"<b class=\"due\">{UpkeepText.Standing(check)}</b>") : Markup.Of($"{UpkeepText.Standing(check)}");

    private Markup Done(IReadOnlyList<UpkeepDue> checks) => !visitor.IsKeeper ? Markup.Empty : SeasonBlocks.Section(
        "done", Phrases.Say("upkeep.note-done"),
        Markup.Of(
            $"""
            <form action="{ask.Link(DonePath)}" method="post">{visitor.Proof}
            <div><label for="check">{Phrases.Say("upkeep.what")}</label><select id="check" name="check">{checks.Select(c => Markup.Of($"<option value=\"{c.Task.Code}\">{UpkeepRules.Done(c.Task.Code)}</option>"))}</select></div>
            <div><label for="note">{Phrases.Say("upkeep.note")}</label><input id="note" name="note" maxlength="150" autocomplete="off"></div>
            <button class="main">{Phrases.Say("keeper.add")}</button></form>
            """));
}
