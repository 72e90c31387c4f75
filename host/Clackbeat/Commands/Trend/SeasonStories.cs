using Clackbeat.Report.Plots;
using Clackbeat.Report.Seasons;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Season.Wording;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Commands.Trend;

/// <summary>Gathers from a season store what the season's page tells.</summary>
internal static class SeasonStories
{
    // What lasts less than a day shows in the calendar and needs no meeting.
    private const double WorthTellingH = 24;

    /// <summary>Gathers it.</summary>
    /// <param name="store">The store.</param>
    /// <param name="ram">The ram.</param>
    /// <param name="span">The season.</param>
    /// <param name="units">Units a page begins with.</param>
    public static SeasonStory Of(ISeasonStore store, string ram, TimeSpanUtc span, Units units)
    {
        IReadOnlyList<BurstState> states = store.States(ram, span);
        IReadOnlyList<LedgerLine> days = Ledger.Days(store, ram, span, TimeZoneInfo.Local);
        if (days.Count == 0)
        {
            throw InputException.Of("trend.nothing-then", ("ram", ram));
        }

        FigureTrend Trend(SeasonFigure figure) => FigureTrend.Of(store, ram, figure, span, TimeZoneInfo.Local);
        FigureTrend efficiency = Trend(SeasonFigure.Efficiency);
        (IReadOnlyList<TimeStretch> stopped, IReadOnlyList<TimeStretch> unknown) = Stretches.Of(states, WorthTellingH);
        LedgerLine sum = Ledger.Sum(days);
        return new SeasonStory
        {
            SiteName = ram,
            Units = units,
            From = days[0].From,
            To = days[^1].From,
            Months = Months(days),
            Efficiency = [.. efficiency.Days.Select(d => new PlottedDay(d.Day, 100 * d.Value, 100 * d.Low, 100 * d.High) { IsUpperBound = d.IsUpperBound })],
            LevelM = efficiency.Correction?.ReferenceHeadM,
            Slope = Slope(efficiency),
            Upkeep = Upkeep([.. store.Marks(ram).Where(m => m.AtUtc >= span.From && m.AtUtc < span.To)], efficiency.Days),
            Changes =
            [
                .. new[] { efficiency, Trend(SeasonFigure.Irregularity), Trend(SeasonFigure.Rate) }
                    .SelectMany(t => t.Changes.Where(c => SeasonText.IsSeen(t, c)).Select(c => Change(t, c))).OrderBy(c => c.Day),
            ],
            Hours = [.. BeatCalendar.Of(store, ram, span, TimeZoneInfo.Local).Select(h => new PlottedHour(h.Day, h.Hour, h.BeatingShare, h.RatePerMin))],
            Stoppages = [.. stopped.Select(Stretch)],
            Silences = [.. unknown.Select(Stretch)],
            PeakShare = LastMonth(Trend(SeasonFigure.RatingUse).Measured),
            Fatigue = sum.Fatigue.Central > 0 ? sum.Fatigue : null,
        };
    }

    private static List<SeasonMonth> Months(IReadOnlyList<LedgerLine> days)
    {
        var known = Ledger.Months(days).ToDictionary(m => m.From);
        var months = new List<SeasonMonth>();
        for (var month = new DateOnly(days[0].From.Year, days[0].From.Month, 1); month <= days[^1].From; month = month.AddMonths(1))
        {
            LedgerLine line = known.GetValueOrDefault(month) ?? new LedgerLine(month);
            DateOnly first = month < days[0].From ? days[0].From : month;
            DateOnly end = month.AddMonths(1) > days[^1].From.AddDays(1) ? days[^1].From.AddDays(1) : month.AddMonths(1);
            double unknownH = (24.0 * (end.DayNumber - first.DayNumber)) - line.MeteredH - line.StoppedH;
            months.Add(new SeasonMonth(
                month, line.MeteredH > 0 || line.StoppedH > 0 ? line.DeliveredM3 : null, line.DeliveredU, line.RunningH, line.StoppedH, Math.Max(0, unknownH))
            {
                IsUpperBound = line.IsUpperBound,
            });
        }

        return months;
    }

    private static SeasonSlope? Slope(FigureTrend trend) => trend.Recent is { } line
        ? new SeasonSlope(trend.RecentFrom!.Value, 3000 * line.Slope, 3000 * line.Low, 3000 * line.High, 100 * line.At(trend.Days[^1].X))
        {
            IsUpperBound = trend.Days[^1].IsUpperBound,
            MixesBounds = trend.RecentMixesBounds,
        }
        : null;

    private static List<SeasonUpkeep> Upkeep(IReadOnlyList<MaintenanceMark> marks, IReadOnlyList<DayValue> efficiency)
    {
        DateOnly[] days = [.. marks.Select(m => DateOnly.FromDateTime(m.AtUtc.LocalDateTime))];
        return
        [
            .. marks.Zip(days, (mark, day) =>
            {
                var c = Comparison.Around(efficiency, day, days);
                return new SeasonUpkeep(day, mark.Words, c is { MixesBounds: false } ? (100 * c.Shift, 100 * c.Low, 100 * c.High) : null)
                {
                    MixesBounds = c is { MixesBounds: true },
                };
            }),
        ];
    }

    private static SeasonChange Change(FigureTrend trend, ChangePoint change)
    {
        var unit = SeasonUnit.Of(trend.Figure);
        static DateOnly Day(double at) => DateOnly.FromDayNumber((int)at);
        return new SeasonChange(
            Day(change.At), Day(change.Earliest), Day(change.Latest), unit.Name.ToLowerInvariant(), (trend.IsBoundBefore(change) ? Phrases.Say("trend.at-most") : "") + unit.Text(change.Before), (trend.IsBoundAfter(change) ? Phrases.Say("trend.at-most") : "") + unit.Text(change.After),
            trend.Figure == SeasonFigure.Efficiency);
    }

    private static SeasonStretch Stretch(TimeStretch stretch) => new(
        DateOnly.FromDateTime(stretch.From.LocalDateTime), DateOnly.FromDateTime(stretch.To.LocalDateTime.AddTicks(-1)), stretch.Hours);

    private static double? LastMonth(IReadOnlyList<DayValue> days)
    {
        double[] last = [.. days.Where(d => d.Day > days[^1].Day.AddDays(-30)).Select(d => d.Value)];
        return last.Length > 0 ? ArrayStatistics.MedianInplace(last) : null;
    }
}
