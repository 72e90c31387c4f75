using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Site;
using static Clackbeat.Commands.TrendText;

namespace Clackbeat.Commands;

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
            throw new InputException($"The store holds no figure of {ram} yet.");
        }

        IReadOnlyList<DayValue> efficiency = trends.FirstOrDefault(t => t.Figure == SeasonFigure.Efficiency)?.Days ?? [];
        IReadOnlyList<MaintenanceMark> marks = store.Marks(ram);
        DateOnly[] days = [.. marks.Select(m => DateOnly.FromDateTime(m.AtUtc.LocalDateTime))];
        return new TrendOverview(ram, trends, [.. marks.Zip(days, (mark, day) => (mark, Comparison.Around(efficiency, day, days)))]);
    }

    /// <summary>Whether a change shows in the digits a keeper reads; one that doesn't is no news.</summary>
    public static bool IsSeen(FigureTrend trend, ChangePoint change)
    {
        SeasonUnit unit = SeasonUnit.Of(trend.Figure);
        return unit.Text(change.Before) != unit.Text(change.After);
    }

    /// <summary>Writes the tables.</summary>
    public void Write(Session session)
    {
        session.Out.WriteLine($"{Ram}: {Day(From)} to {Day(To)}");
        Layout.Table(session, ["Figure", "First week", "Last week", "Trend a month since", ""], Trends.Select(Row));
        var changes = Trends.SelectMany(t => t.Changes.Where(c => IsSeen(t, c)).Select(c => Sentence(t, c))).ToList();
        session.Out.WriteLine(changes.Count == 0 ? "No change was found." : "Changes found:");
        Layout.Bullets(session, changes);
        if (Marks.Count > 0)
        {
            session.Out.WriteLine("Marks, and the efficiency in up to 30 days after against before, at one supply level:");
            Layout.Bullets(session, Marks.Select(Sentence));
        }

        if (Trends.Any(t => t.Correction is not null))
        {
            Layout.Paragraph(session, "Trends and changes are at one supply level, so that a drought doesn't look like wear; first and last week are as measured.");
        }
    }

    private static string[] Row(FigureTrend trend)
    {
        SeasonUnit unit = SeasonUnit.Of(trend.Figure);
        string Week(IEnumerable<DayValue> days) => unit.Number(days.Average(d => d.Value));
        string slope = trend.Recent is { } line
            ? $"{unit.Number(line.Slope * 30)} ({unit.Number(line.Low * 30)} to {unit.Number(line.High * 30)})"
            : "too few days";
        return [unit.Label, Week(trend.Measured.Take(7)), Week(trend.Measured.TakeLast(7)), slope, trend.RecentFrom is { } from ? Day(from) : ""];
    }

    private static string Sentence(FigureTrend trend, ChangePoint change)
    {
        SeasonUnit unit = SeasonUnit.Of(trend.Figure);
        return $"{Day(change.At)} (between {Day(change.Earliest)} and {Day(change.Latest)}): {unit.Name} from {unit.Text(change.Before)} to {unit.Text(change.After)}";
    }

    private static string Sentence((MaintenanceMark Mark, Comparison? Efficiency) marked)
    {
        string day = Day(DateOnly.FromDateTime(marked.Mark.AtUtc.LocalDateTime));
        SeasonUnit unit = SeasonUnit.Of(SeasonFigure.Efficiency);
        return marked.Efficiency is { } compared
            ? $"{day} {marked.Mark.Words}: {unit.Text(compared.Before)} to {unit.Text(compared.After)}, a shift of {unit.Text(compared.Shift)} ({unit.Number(compared.Low)} to {unit.Number(compared.High)})"
            : $"{day} {marked.Mark.Words}: too few days with an efficiency to compare";
    }
}
