using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Words;

namespace Clackbeat.Season.Upkeep;

/// <summary>What is due at a ram: by days, by the hours and beats that the store counts, and by trend.</summary>
public static class UpkeepRules
{
    // A judgement: a change that would reach a twentieth of the figure in a year is worth a look before its time.
    private const double LeastShareAYear = 0.05;

    /// <summary>Judges all checks, the most pressing first.</summary>
    /// <param name="store">The store.</param>
    /// <param name="ram">The ram.</param>
    /// <param name="intervals">Intervals that the keeper chose, by code.</param>
    /// <param name="now">Now.</param>
    /// <param name="zone">Where the days begin.</param>
    public static IReadOnlyList<UpkeepDue> Judge(
        ISeasonStore store, string ram, IReadOnlyDictionary<string, UpkeepInterval> intervals, DateTimeOffset now, TimeZoneInfo zone)
    {
        IReadOnlyList<LedgerLine> days = Ledger.WithSilence(Ledger.Days(store, ram, TimeSpanUtc.All, zone), zone);
        if (days.Count == 0)
        {
            return [];
        }

        var rates = DailySeries.Of(store.Series(ram, SeasonFigure.Rate, TimeSpanUtc.All), zone).ToDictionary(d => d.Day, d => d.Value);
        var year = new TimeSpanUtc(now.AddDays(-365), DateTimeOffset.MaxValue);
        var signs = UpkeepTask.All.SelectMany(t => t.Signs).Distinct().Where(s => Calls(FigureTrend.Of(store, ram, s.Figure, year, zone), s.Rises)).ToHashSet();
        DateOnly today = Day(now, zone);
        IReadOnlyList<MaintenanceMark> marks = store.Marks(ram);
        return
        [
            .. UpkeepTask.All.Select(task =>
            {
                DateOnly? last = marks.Where(m => IsOf(task, m.Words) && m.AtUtc <= now).Select(m => (DateOnly?)Day(m.AtUtc, zone)).LastOrDefault();
                LedgerLine[] since = [.. days.Where(d => last is null || d.From > last)];
                var due = new UpkeepDue(
                    task, intervals.GetValueOrDefault(task.Code, task.Usual), last, today.DayNumber - (last ?? days[0].From).DayNumber, since.Sum(d => d.RunningH),
                    since.Sum(d => d.RunningH * 60 * rates.GetValueOrDefault(d.From)), since.Sum(d => d.UnrecordedH) + SilentH(days[^1].From, last, today));
                return due.Interval == UpkeepInterval.Never ? due : due with { Sign = task.Signs.Where(signs.Contains).Select(s => (SeasonFigure?)s.Figure).FirstOrDefault() };
            }).Where(d => d.Interval != UpkeepInterval.Never).OrderByDescending(d => d.IsDue).ThenByDescending(d => d.Used),
        ];
    }

    /// <summary>The words of a mark that says a check was done.</summary>
    /// <param name="code">The check's code.</param>
    public static string Done(string code) => Catalogue.Current.Say($"upkeep-done.{code}");

    // A mark may have been made in another language than it is read in.
    private static bool IsOf(UpkeepTask task, string words) =>
        Catalogue.All.Any(c => c.Say($"upkeep-done.{task.Code}") is var done && words.StartsWith(done, StringComparison.OrdinalIgnoreCase));

    // From the store's last day to today nothing is known either.
    private static double SilentH(DateOnly lastDay, DateOnly? last, DateOnly today) =>
        24.0 * Math.Max(0, today.DayNumber - Math.Max(lastDay.DayNumber, last?.DayNumber ?? 0) - 1);

    private static bool Calls(FigureTrend trend, bool rises)
    {
        if (trend.Recent is not { } line || trend.RecentMixesBounds || trend.Days.Count == 0)
        {
            return false;
        }

        double level = Math.Abs(line.At(trend.Days[^1].X));
        double least = LeastShareAYear * level / 365;
        return rises ? line.Low > 0 && line.Slope > least : line.High < 0 && line.Slope < -least;
    }

    private static DateOnly Day(DateTimeOffset time, TimeZoneInfo zone) => DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(time, zone).DateTime);
}
