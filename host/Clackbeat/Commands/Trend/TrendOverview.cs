using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Season.Wording;
using Clackbeat.Site;
using Clackbeat.Words;
using static Clackbeat.Commands.Trend.TrendText;

namespace Clackbeat.Commands.Trend;

/// <summary>What a season store tells of one ram, gathered once, and its tables.</summary>
/// <param name="Ram">The ram.</param>
/// <param name="Trends">The figures that have days.</param>
/// <param name="Marks">The marks, each with the efficiency after against before; null for too few days.</param>
internal sealed record TrendOverview(
    string Ram, IReadOnlyList<FigureTrend> Trends, IReadOnlyList<(MaintenanceMark Mark, Comparison? Efficiency)> Marks)
{
    private static readonly SeasonFigure[] Shown =
    [
        SeasonFigure.Rate, SeasonFigure.Irregularity, SeasonFigure.PeakTrue, SeasonFigure.DeliveryPressure, SeasonFigure.Delivered,
        SeasonFigure.Efficiency, SeasonFigure.SupplyHead, SeasonFigure.RatingUse,
    ];

    /// <summary>First day of any figure.</summary>
    public DateOnly From => Trends.Min(t => t.Measured[0].Day);

    /// <summary>Last day.</summary>
    public DateOnly To => Trends.Max(t => t.Measured[^1].Day);

    /// <summary>Gathers it.</summary>
    /// <exception cref="InputException">The store holds no figure of the ram.</exception>
    public static TrendOverview Of(ISeasonStore store, string ram)
    {
        FigureTrend[] trends = [.. Shown.Select(f => TrendStore.Trend(store, ram, f)).Where(t => t.Days.Count > 0)];
        if (trends.Length == 0)
        {
            throw InputException.Of("trend.no-figure", ("ram", ram));
        }

        IReadOnlyList<DayValue> efficiency = trends.FirstOrDefault(t => t.Figure == SeasonFigure.Efficiency)?.Days ?? [];
        IReadOnlyList<MaintenanceMark> marks = store.Marks(ram);
        DateOnly[] days = [.. marks.Select(m => DateOnly.FromDateTime(m.AtUtc.LocalDateTime))];
        return new TrendOverview(ram, trends, [.. marks.Zip(days, (mark, day) => (mark, Comparison.Around(efficiency, day, days)))]);
    }

    /// <summary>Whether a change shows in the digits a keeper reads; one that doesn't is no news.</summary>
    public static bool IsSeen(FigureTrend trend, ChangePoint change)
    {
        var unit = SeasonUnit.Of(trend.Figure);
        return unit.Text(change.Before) != unit.Text(change.After);
    }

    /// <summary>Writes the tables.</summary>
    public void Write(Session session)
    {
        session.Out.WriteLine(Phrases.Say("trend.span", ("ram", Ram), ("from", Day(From)), ("to", Day(To))));
        Layout.Table(session, [Phrases.Say("trend.figure"), Phrases.Say("trend.first-week"), Phrases.Say("trend.last-week"), Phrases.Say("trend.trend-month"), ""], Trends.Select(Row));
        Layout.Paragraph(session, Phrases.Say("trend.trend-range"));
        var changes = Trends.SelectMany(t => t.Changes.Where(c => IsSeen(t, c)).Select(c => Sentence(t, c))).ToList();
        session.Out.WriteLine(changes.Count == 0 ? Phrases.Say("trend.no-change") : Phrases.Say("trend.changes"));
        Layout.Bullets(session, changes);
        if (Marks.Count > 0)
        {
            session.Out.WriteLine(Phrases.Say("trend.marks"));
            Layout.Bullets(session, Marks.Select(Sentence));
        }

        if (Trends.Any(t => t.Measured.Any(d => d.IsUpperBound)))
        {
            Layout.Paragraph(session, Phrases.Say("trend.bound-why"));
        }

        foreach (FigureTrend mixed in Trends.Where(t => t.RecentMixesBounds))
        {
            Layout.Paragraph(session, Phrases.Say("trend.mixed-bounds", ("figure", SeasonUnit.Of(mixed.Figure).Name)));
        }

        if (Trends.Any(t => t.Correction is not null))
        {
            Layout.Paragraph(session, Phrases.Say("trend.one-level"));
        }
    }

    private static string Bound(bool isUpper) => isUpper ? Phrases.Say("trend.at-most") : "";

    private static string[] Row(FigureTrend trend)
    {
        var unit = SeasonUnit.Of(trend.Figure);
        string Week(IEnumerable<DayValue> days) => Bound(FigureTrend.AreBounds(days)) + unit.Number(days.Average(d => d.Value));
        string slope = trend.Recent is { } line
            ? Phrases.Say("trend.slope", ("slope", unit.Number(line.Slope * 30)), ("low", unit.Number(line.Low * 30)), ("high", unit.Number(line.High * 30)))
            : Phrases.Say("trend.few-days");
        return [unit.Label, Week(trend.Measured.Take(7)), Week(trend.Measured.TakeLast(7)), slope, trend.RecentFrom is { } from ? Day(from) : ""];
    }

    private static string Sentence(FigureTrend trend, ChangePoint change)
    {
        var unit = SeasonUnit.Of(trend.Figure);
        return Phrases.Say("trend.change", ("days", Days(change.At, change.Earliest, change.Latest)), ("figure", unit.Name), ("before", Bound(trend.IsBoundBefore(change)) + unit.Text(change.Before)), ("after", Bound(trend.IsBoundAfter(change)) + unit.Text(change.After)));
    }

    private static string Sentence((MaintenanceMark Mark, Comparison? Efficiency) marked)
    {
        string day = Day(DateOnly.FromDateTime(marked.Mark.AtUtc.LocalDateTime));
        var unit = SeasonUnit.Of(SeasonFigure.Efficiency);
        if (marked.Efficiency is { MixesBounds: true } mixed)
        {
            return Phrases.Say("trend.mark-mixed", ("day", day), ("words", marked.Mark.Words), ("before", Bound(mixed.BeforeIsUpperBound) + unit.Text(mixed.Before)), ("after", Bound(mixed.AfterIsUpperBound) + unit.Text(mixed.After)));
        }

        return marked.Efficiency is { } compared
            ? Phrases.Say("trend.mark-shift", ("day", day), ("words", marked.Mark.Words), ("before", Bound(compared.BeforeIsUpperBound) + unit.Text(compared.Before)), ("after", Bound(compared.AfterIsUpperBound) + unit.Text(compared.After)), ("shift", unit.Difference(compared.Before, compared.After)), ("low", unit.Number(compared.Low)), ("high", unit.Number(compared.High)))
            : Phrases.Say("trend.mark-few-days", ("day", day), ("words", marked.Mark.Words));
    }
}
