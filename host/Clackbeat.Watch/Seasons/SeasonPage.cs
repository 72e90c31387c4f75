using Clackbeat.Report.Html;
using Clackbeat.Report.Plots;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Season.Wording;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Web;
using Clackbeat.Words;
using static Clackbeat.Watch.Seasons.SeasonBlocks;

namespace Clackbeat.Watch.Seasons;

/// <summary>One ram's season as HTML without any script: figures, pictures, what happened, calendar, beats, and the way to compare.</summary>
/// <param name="told">What the store tells.</param>
/// <param name="ask">What the reader asked for.</param>
/// <param name="visitor">Who looks at it.</param>
internal sealed class SeasonPage(SeasonTold told, SeasonAsk ask, Visitor visitor)
{
    private readonly SeasonText _words = new(ask.Units);

    /// <summary>The page.</summary>
    public string Write() => PageShell.Served(
        ask.Ram, ["pages.css", "pictures.css", "season.css"],
        Markup.Of(
            $"""
            {Head(ask, visitor, ask.Ram, Phrases.Say("season-page.span", ("from", SeasonText.Day(told.Season.From)), ("to", SeasonText.Day(told.Season.To))))}
            <nav aria-label="{Phrases.Say("season-page.choose")}"><ul class="links">{Choices()}</ul></nav>
            {Section("figures", Phrases.Say("season-page.figures"), Figures())}
            {Section("pictures", Phrases.Say("season-page.pictures"), Pictures())}
            {Section("happened", Phrases.Say("season-page.happened"), Happened())}
            {Section("calendar", Phrases.Say("season-page.calendar"), new CalendarBlock(told.Days, ask).Write())}
            {Section("beat", Phrases.Say("season-page.beat"), new BeatBlock(ask.Units).Write(told.Then, told.Now))}
            {new KeeperForms(ask, visitor).Marks([.. told.Season.Marks.Select(m => m.Mark)])}
            {new KeeperForms(ask, visitor).Journal(told.Journal)}
            {Section("compare", Phrases.Say("season-page.compare"), new CompareForm(ask).Write(told.Season.From, told.Season.To))}
            """));

    private IEnumerable<Markup> Choices()
    {
        yield return Choice(SeasonAsk.Quarter, Phrases.Say("season-page.quarter"));
        yield return Choice(SeasonAsk.Year, Phrases.Say("season-page.year"));
        yield return Choice(0, Phrases.Say("season-page.all"));
        SeasonAsk other = ask with { Units = ask.Units == Units.Us ? Units.Metric : Units.Us };
        yield return Markup.Of($"<li><a href=\"{other.Link("/season", ("days", Days(ask.Days)))}\">{Phrases.Say(ask.Units == Units.Us ? "season-page.in-metric" : "season-page.in-us")}</a></li>");
        yield return Markup.Of($"<li><a href=\"{ask.Link("/upkeep")}\">{Phrases.Say("upkeep.title")}</a></li>");
        yield return Markup.Of($"<li><a href=\"{ask.Link("/season/report")}\">{Phrases.Say("season-page.report")}</a></li>");
    }

    private Markup Choice(int days, string words) => days == ask.Days
        ? Markup.Of($"<li><b aria-current=\"page\">{words}</b></li>")
        : Markup.Of($"<li><a href=\"{ask.Link("/season", ("days", Days(days)))}\">{words}</a></li>");

    private Markup Figures() => Markup.Of(
        $"""
        {Table(
            [Phrases.Say("trend.figure"), Phrases.Say("trend.first-week"), Phrases.Say("trend.last-week"), Phrases.Say("trend.trend-month"), Phrases.Say("season-page.since")],
            told.Season.Trends.Select(t => _words.Row(t).Select(c => Markup.Of($"{c}"))))}
        {Notes().Select(n => Markup.Of($"<p class=\"small\">{n}</p>"))}
        """);

    private IEnumerable<string> Notes()
    {
        yield return Phrases.Say("trend.trend-range");
        if (told.Season.Trends.Any(t => t.Correction is not null))
        {
            yield return Phrases.Say("trend.one-level");
        }

        if (told.Season.Trends.Any(t => t.Measured.Any(d => d.IsUpperBound)))
        {
            yield return Phrases.Say("trend.bound-why");
        }

        foreach (FigureTrend mixed in told.Season.Trends.Where(t => t.RecentMixesBounds))
        {
            yield return Phrases.Say("trend.mixed-bounds", ("figure", SeasonUnit.Of(mixed.Figure).Name));
        }
    }

    private Markup Pictures() => Markup.Of(
        $"""
        <p class="small">{Phrases.Say("season-page.band")} {Phrases.Say("season.green-upkeep-red-change-without")}</p>
        {told.Season.Trends.Where(t => t.Days.Count > 1).Select(Picture)}
        """);

    private Markup Picture(FigureTrend trend)
    {
        var unit = SeasonUnit.Of(trend.Figure, ask.Units);
        string title = Title(unit, trend.Correction?.ReferenceHeadM, ask.Units);
        (DayValue first, DayValue last) = (trend.Days[0], trend.Days[^1]);
        string seen = Phrases.Say(
            "season-page.seen", ("figure", unit.Name), ("first", unit.Text(first.Value)), ("from", SeasonText.Day(first.Day)), ("last", unit.Text(last.Value)), ("to", SeasonText.Day(last.Day)));
        PlottedDay[] days =
        [
            .. trend.Days.Select(d => new PlottedDay(d.Day, d.Value * unit.Factor, d.Low * unit.Factor, d.High * unit.Factor) { IsUpperBound = d.IsUpperBound }),
        ];
        PlottedMark[] marks =
        [
            .. told.Season.Marks.Select(m => new PlottedMark(DayOf(m.Mark.AtUtc), m.Mark.Words, ByHand: true)),
            .. trend.Changes.Where(c => SeasonText.IsSeen(trend, c)).Select(c => new PlottedMark(DateOnly.FromDayNumber((int)c.At), "", ByHand: false)),
        ];
        return FigureMarkup.Trend(trend.Figure.Code(), title, seen, unit.Label, days, marks);
    }

    private Markup Happened()
    {
        (DateOnly Day, string Words, bool IsCompared)[] all =
        [
            .. told.Season.Marks.Select(m => (DayOf(m.Mark.AtUtc), Phrases.Say("season-page.mark", ("words", _words.Of(m))), true)),
            .. told.Season.Trends.SelectMany(t => t.Changes.Where(c => SeasonText.IsSeen(t, c)).Select(c =>
                (DateOnly.FromDayNumber((int)c.At), Phrases.Say("season-page.change", ("words", _words.Of(t, c))), true))),
            .. told.Stopped.Select(s => (DayOf(s.From), Stretch("season-page.stopped", s), false)),
            .. told.Silent.Select(s => (DayOf(s.From), Stretch("season-page.silent", s), false)),
        ];
        return all.Length == 0
            ? Markup.Of($"<p>{Phrases.Say("season-page.nothing-happened")}</p>")
            : Markup.Of($"<ul class=\"events\">{all.OrderByDescending(e => e.Day).Select(e => Markup.Of($"<li>{e.Words}{(e.IsCompared ? Around(e.Day) : Markup.Empty)}</li>\n"))}</ul>");
    }

    private static string Stretch(string key, TimeStretch stretch) => Catalogue.Current.Say(
        key, ("from", Minute(stretch.From)), ("to", Minute(stretch.To)), ("hours", Math.Round(stretch.Hours)));

    private Markup Around(DateOnly day) => Markup.Of(
        $" <a href=\"{ask.Link("/compare", CompareForm.Periods(day.AddDays(-30), day.AddDays(-1), day.AddDays(1), day.AddDays(30)))}\">{Phrases.Say("season-page.around", ("day", SeasonText.Day(day)))}</a>");
}
