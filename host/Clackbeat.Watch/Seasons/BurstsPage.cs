using System.Globalization;
using Clackbeat.Report.Html;
using Clackbeat.Season.Store;
using Clackbeat.Season.Wording;
using Clackbeat.Signal.States;
using Clackbeat.Watch.Web;
using Clackbeat.Words;

namespace Clackbeat.Watch.Seasons;

/// <summary>The bursts of one day: what each told, and the way to compare two of them.</summary>
/// <param name="ask">What the reader asked for.</param>
/// <param name="visitor">Who looks at it.</param>
/// <param name="day">The day.</param>
/// <param name="chosen">Start of a burst that was chosen on another day as the first to compare; empty for none.</param>
internal sealed class BurstsPage(SeasonAsk ask, Visitor visitor, DateOnly day, string chosen)
{
    private static readonly SeasonFigure[] Shown = [SeasonFigure.Rate, SeasonFigure.Delivered, SeasonFigure.Efficiency, SeasonFigure.PeakTrue];

    /// <summary>The page.</summary>
    /// <param name="bursts">The day's bursts, oldest first.</param>
    public string Write(IReadOnlyList<SeasonBurst> bursts) => PageShell.Served(
        Phrases.Say("season-page.bursts-of", ("day", SeasonText.Day(day))), ["pages.css", "season.css"],
        Markup.Of(
            $"""
            {SeasonBlocks.Head(ask, visitor, Phrases.Say("season-page.bursts-of", ("day", SeasonText.Day(day))), Phrases.Say("season-page.bursts", ("bursts", bursts.Count)), isDeeper: true)}
            <nav aria-label="{Phrases.Say("season-page.days")}"><ul class="links"><li>{Other(day.AddDays(-1))}</li><li>{Other(day.AddDays(1))}</li></ul></nav>
            {(bursts.Count == 0 ? Markup.Of($"<p>{Phrases.Say("season-page.no-record")}</p>") : Table(bursts))}
            {new KeeperForms(ask, visitor).Bursts(bursts)}
            """));

    private Markup Other(DateOnly other) => Markup.Of(
        $"<a href=\"{ask.Link("/bursts", [("day", SeasonText.Day(other)), .. chosen.Length > 0 ? [(ComparePage.FirstBurst, chosen)] : Array.Empty<(string, string)>()])}\">{SeasonText.Day(other)}</a>");

    private Markup Table(IReadOnlyList<SeasonBurst> bursts) => Markup.Of(
        $"""
        <p class="small">{(chosen.Length > 0 ? Phrases.Say("season-page.first-chosen", ("when", When(chosen))) : Phrases.Say("season-page.choose-first"))}</p>
        {SeasonBlocks.Table([Phrases.Say("trend.began"), Phrases.Say("overview.state"), .. Figures(), Phrases.Say("trend.beats"), Phrases.Say("season-page.compare")], bursts.Select(Row))}
        """);

    private IEnumerable<string> Figures() => Shown.Select(f => SeasonUnit.Of(f, ask.Units).Name);

    private IEnumerable<Markup> Row(SeasonBurst burst)
    {
        yield return Markup.Of($"{burst.StartUtc.LocalDateTime.ToString("HH:mm:ss", CultureInfo.InvariantCulture)}");
        yield return Markup.Of($"{State(burst.State)}");
        foreach (SeasonFigure figure in Shown)
        {
            yield return Markup.Of($"{(burst.Figures.TryGetValue(figure, out SeasonValue value) ? SeasonUnit.Of(figure, ask.Units).Text(value) : Phrases.Say("overview.unknown"))}");
        }

        yield return Markup.Of($"{burst.Beats.Count.ToString(CultureInfo.InvariantCulture)}");
        yield return Compare(burst);
    }

    private Markup Compare(SeasonBurst burst)
    {
        string start = Key(burst);
        return chosen.Length == 0
            ? Markup.Of($"<a href=\"{ask.Link("/bursts", ("day", SeasonText.Day(day)), (ComparePage.FirstBurst, start))}\">{Phrases.Say("season-page.as-before")}</a>")
            : start == chosen
                ? Markup.Of($"<b>{Phrases.Say("season-page.before")}</b>")
                : Markup.Of($"<a href=\"{ask.Link("/compare", (ComparePage.FirstBurst, chosen), (ComparePage.SecondBurst, start))}\">{Phrases.Say("season-page.as-after")}</a>");
    }

    /// <summary>A burst's start as an address holds it.</summary>
    public static string Key(SeasonBurst burst) => burst.StartUtc.ToString("O", CultureInfo.InvariantCulture);

    private static string When(string start) =>
        DateTimeOffset.TryParse(start, CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTimeOffset at) ? JournalText.Time(at) : start;

    private static string State(RamState state) => Phrases.Say(state switch
    {
        RamState.Beating => "overview.beats",
        RamState.NoSignal => "overview.no-signal",
        _ => "overview.stopped",
    });
}
