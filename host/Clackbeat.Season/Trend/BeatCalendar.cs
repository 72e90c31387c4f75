using Clackbeat.Season.Store;
using Clackbeat.Signal.States;

namespace Clackbeat.Season.Trend;

/// <summary>An hour of a day, as the clock on the wall counts it.</summary>
/// <param name="Day">The day.</param>
/// <param name="Hour">0 to 23; where clocks are put back, one hour of the day holds two.</param>
/// <param name="BeatingShare">Share of the known time that it beat, 0 to 1.</param>
/// <param name="RatePerMin">Beats a minute while it beat; null where it didn't, or the rate was withheld.</param>
public readonly record struct CalendarHour(DateOnly Day, int Hour, double BeatingShare, double? RatePerMin);

/// <summary>
/// Days by hours: when the ram beat, how fast, and when it stood. Hours no burst stands for are left out, as are those
/// without a signal.
/// </summary>
public static class BeatCalendar
{
    /// <summary>The hours that are known, oldest first.</summary>
    /// <param name="store">The store.</param>
    /// <param name="ram">The ram.</param>
    /// <param name="span">Of which bursts.</param>
    /// <param name="zone">Of the clock on the wall.</param>
    public static IReadOnlyList<CalendarHour> Of(ISeasonStore store, string ram, TimeSpanUtc span, TimeZoneInfo zone)
    {
        var rate = new SeriesFollower(store.Series(ram, SeasonFigure.Rate, span));
        var hours = new SortedDictionary<(DateOnly Day, int Hour), Sum>();
        foreach ((BurstState burst, DateTimeOffset from, DateTimeOffset to) in Standing.Of(store.States(ram, span)))
        {
            double? perMin = rate.At(from)?.Value;
            if (burst.State == RamState.NoSignal)
            {
                continue;
            }

            for (DateTimeOffset at = from; at < to;)
            {
                DateTimeOffset local = TimeZoneInfo.ConvertTime(at, zone);
                DateTimeOffset next = at + (TimeSpan.FromHours(1) - new TimeSpan(0, 0, local.Minute, local.Second) - new TimeSpan(local.Ticks % TimeSpan.TicksPerSecond));
                DateTimeOffset until = next < to ? next : to;
                (DateOnly, int) key = (DateOnly.FromDateTime(local.DateTime), local.Hour);
                hours[key] = hours.GetValueOrDefault(key).Plus((until - at).TotalHours, burst.State == RamState.Beating, perMin);
                at = until;
            }
        }

        return [.. hours.Select(h => new CalendarHour(h.Key.Day, h.Key.Hour, h.Value.BeatingH / h.Value.KnownH, h.Value.Rate))];
    }

    private readonly record struct Sum(double KnownH, double BeatingH, double RatedH, double RateTimesH)
    {
        public double? Rate => RatedH > 0 ? RateTimesH / RatedH : null;

        public Sum Plus(double hours, bool beats, double? perMin) => new(
            KnownH + hours,
            BeatingH + (beats ? hours : 0),
            RatedH + (beats && perMin is not null ? hours : 0),
            RateTimesH + (beats && perMin is { } rate ? rate * hours : 0));
    }
}
