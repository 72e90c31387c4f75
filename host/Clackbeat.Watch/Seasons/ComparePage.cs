using System.Globalization;
using Clackbeat.Report.Html;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Season.Wording;
using Clackbeat.Site;
using Clackbeat.Watch.Web;
using Clackbeat.Words;
using Microsoft.AspNetCore.Http;

namespace Clackbeat.Watch.Seasons;

/// <summary>Two bursts or two periods of a ram side by side.</summary>
/// <param name="store">The store.</param>
/// <param name="ask">What the reader asked for.</param>
/// <param name="visitor">Who looks at it.</param>
internal sealed class ComparePage(ISeasonStore store, SeasonAsk ask, Visitor visitor)
{
    /// <summary>Names of the fields that hold a burst's start.</summary>
    public const string FirstBurst = "a";

    /// <summary>The same of the second.</summary>
    public const string SecondBurst = "b";

    // Beats of so many bursts tell as much as those of a year.
    private const int MostBursts = 100;

    private static readonly SeasonFigure[] Compared =
        [.. RamSeason.Followed, SeasonFigure.Waste, SeasonFigure.Drawn, SeasonFigure.ClosingVelocity, SeasonFigure.Suction, SeasonFigure.WaveSpeed];

    /// <summary>The page.</summary>
    /// <param name="query">Where the two stand.</param>
    /// <exception cref="InputException">One of the two can't be read, or the store holds nothing then.</exception>
    public string Write(IQueryCollection query)
    {
        Side first = Read(query, FirstBurst, CompareForm.Names[0], CompareForm.Names[1]);
        Side second = Read(query, SecondBurst, CompareForm.Names[2], CompareForm.Names[3]);
        IReadOnlyList<SideBySide> figures = SideBySide.Of(store, ask.Ram, Compared, first.Span, second.Span, TimeZoneInfo.Local);
        if (figures.All(f => f.Before is null) || figures.All(f => f.After is null))
        {
            throw InputException.Of("season-page.nothing-then", ("when", figures.All(f => f.Before is null) ? first.Name : second.Name));
        }

        return PageShell.Served(
            Phrases.Say("season-page.compare"), ["pages.css", "season.css"],
            Markup.Of(
                $"""
                {SeasonBlocks.Head(ask, visitor, Phrases.Say("season-page.compare"), Phrases.Say("season-page.against", ("before", first.Name), ("after", second.Name)), isDeeper: true)}
                {SeasonBlocks.Table([Phrases.Say("trend.figure"), Phrases.Say("season-page.before"), Phrases.Say("season-page.after"), Phrases.Say("season-page.difference")], figures.Select(Row))}
                <p class="small">{Phrases.Say("season-page.compare-how")} {(figures.Any(f => f.LevelM is not null) ? Phrases.Say("season-page.compare-level") : "")}</p>
                {SeasonBlocks.Section("beat", Phrases.Say("season-page.beat"), new BeatBlock(ask.Units).Write(first.Name, Beats(first), second.Name, Beats(second)))}
                {SeasonBlocks.Section("again", Phrases.Say("season-page.compare-others"), new CompareForm(ask).Write([SeasonBlocks.DayOf(first.Span.From), Last(first), SeasonBlocks.DayOf(second.Span.From), Last(second)]))}
                """));
    }

    private IEnumerable<Markup> Row(SideBySide pair)
    {
        var unit = SeasonUnit.Of(pair.Figure, ask.Units);
        string Side(SeasonValue? value) => value is { } known ? unit.Text(known) : Phrases.Say("overview.unknown");
        yield return Markup.Of($"{SeasonBlocks.Title(unit, pair.LevelM, ask.Units)}");
        yield return Markup.Of($"{Side(pair.Before)}");
        yield return Markup.Of($"{Side(pair.After)}");
        yield return pair switch
        {
            { MixesBounds: true } => Markup.Of($"{Phrases.Say("season-page.mixed")}"),
            { Difference: { } told } => Markup.Of(
                $"{unit.Text(told.Value)} <span class=\"small\">{Phrases.Say("season-page.range", ("low", unit.Number(told.Low)), ("high", unit.Number(told.High)))}</span>"),
            { Before: { } before, After: { } after } => Markup.Of($"{unit.Difference(before.Value, after.Value)} <span class=\"small\">{Phrases.Say("season-page.no-margin")}</span>"),
            _ => Markup.Of($"{Phrases.Say("overview.unknown")}"),
        };
    }

    private IReadOnlyDictionary<BeatPart, BeatSpread> Beats(Side side) => BeatSpread.Of(store.Bursts(ask.Ram, side.Span).Take(MostBursts));

    private static DateOnly Last(Side side) => SeasonBlocks.DayOf(side.Span.To.AddTicks(-1));

    private static Side Read(IQueryCollection query, string burst, string from, string to)
    {
        if (query[burst].ToString() is { Length: > 0 } text)
        {
            return DateTimeOffset.TryParseExact(text, "O", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTimeOffset at)
                ? new Side(new TimeSpanUtc(at, at.AddTicks(1)), Phrases.Say("season-page.burst-of", ("when", JournalText.Time(at))))
                : throw InputException.Of("season-page.no-day", ("text", text));
        }

        (DateOnly first, DateOnly last) = (Day(query[from].ToString()), Day(query[to].ToString()));
        return last >= first
            ? new Side(CalendarDays.Span(first, last, TimeZoneInfo.Local), Phrases.Say("season-page.span", ("from", SeasonText.Day(first)), ("to", SeasonText.Day(last))))
            : throw InputException.Of("season-page.backwards", ("from", SeasonText.Day(first)), ("to", SeasonText.Day(last)));
    }

    private static DateOnly Day(string text) => DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) && day.Year is > 1970 and < 9000
        ? day
        : throw InputException.Of("season-page.no-day", ("text", text));

    private sealed record Side(TimeSpanUtc Span, string Name);
}
