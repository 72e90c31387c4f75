using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Season.Wording;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;
using static Clackbeat.Commands.Trend.TrendText;

namespace Clackbeat.Commands.Trend;

/// <summary>What a season store tells of one ram, in tables.</summary>
internal static class TrendOverview
{
    /// <summary>Gathers it.</summary>
    /// <exception cref="InputException">The store holds no figure of the ram.</exception>
    public static RamSeason Of(ISeasonStore store, string ram) =>
        RamSeason.Of(store, ram, TimeSpanUtc.All, TimeZoneInfo.Local) ?? throw InputException.Of("trend.no-figure", ("ram", ram));

    /// <summary>Writes the tables.</summary>
    public static void Write(this RamSeason season, Session session)
    {
        var words = new SeasonText(Units.Metric);
        session.Out.WriteLine(Phrases.Say("trend.span", ("ram", season.Ram), ("from", Day(season.From)), ("to", Day(season.To))));
        Layout.Table(session, [Phrases.Say("trend.figure"), Phrases.Say("trend.first-week"), Phrases.Say("trend.last-week"), Phrases.Say("trend.trend-month"), ""], season.Trends.Select(words.Row));
        Layout.Paragraph(session, Phrases.Say("trend.trend-range"));
        var changes = season.Trends.SelectMany(t => t.Changes.Where(c => SeasonText.IsSeen(t, c)).Select(c => words.Of(t, c))).ToList();
        session.Out.WriteLine(changes.Count == 0 ? Phrases.Say("trend.no-change") : Phrases.Say("trend.changes"));
        Layout.Bullets(session, changes);
        if (season.Marks.Count > 0)
        {
            session.Out.WriteLine(Phrases.Say("trend.marks"));
            Layout.Bullets(session, season.Marks.Select(words.Of));
        }

        if (season.Trends.Any(t => t.Measured.Any(d => d.IsUpperBound)))
        {
            Layout.Paragraph(session, Phrases.Say("trend.bound-why"));
        }

        foreach (FigureTrend mixed in season.Trends.Where(t => t.RecentMixesBounds))
        {
            Layout.Paragraph(session, Phrases.Say("trend.mixed-bounds", ("figure", SeasonUnit.Of(mixed.Figure).Name)));
        }

        if (season.Trends.Any(t => t.Correction is not null))
        {
            Layout.Paragraph(session, Phrases.Say("trend.one-level"));
        }
    }
}
