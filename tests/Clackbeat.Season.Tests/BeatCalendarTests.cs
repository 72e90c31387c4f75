using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Signal.States;

namespace Clackbeat.Season.Tests;

/// <summary>By hand: bursts every half hour, so that each stands for half an hour.</summary>
public class BeatCalendarTests
{
    private static readonly DateTimeOffset Start = new(2025, 3, 29, 22, 0, 0, TimeSpan.Zero);

    [Fact]
    public void Every_hour_holds_its_share_of_beating_and_its_rate_and_a_silence_stays_out()
    {
        // 22:00 and 22:30 beat at 40 and 50, 23:00 stands, 23:30 beats at 60, then nothing for three hours.
        using var store = new MemoryStore([Burst(0, 40), Burst(1, 50), Burst(2, null), Burst(3, 60), Burst(9, 40), Burst(10, 40)]);
        IReadOnlyList<CalendarHour> hours = BeatCalendar.Of(store, KilledWriter.Ram, TimeSpanUtc.All, TimeZoneInfo.Utc);
        Assert.Equal(
        [
            new CalendarHour(new DateOnly(2025, 3, 29), 22, 1, 45), new CalendarHour(new DateOnly(2025, 3, 29), 23, 0.5, 60),
            new CalendarHour(new DateOnly(2025, 3, 30), 2, 1, 40), new CalendarHour(new DateOnly(2025, 3, 30), 3, 1, 40),
        ], hours);
    }

    /// <summary>Clocks in Berlin go from 2:00 to 3:00 on 30 March 2025: that day has no hour 2.</summary>
    [Fact]
    public void A_day_of_changing_clocks_lacks_the_hour_that_it_lacks()
    {
        using var store = new MemoryStore(Enumerable.Range(0, 20).Select(i => Burst(i, 40)));
        IReadOnlyList<CalendarHour> hours = BeatCalendar.Of(store, KilledWriter.Ram, TimeSpanUtc.All, TimeZoneInfo.FindSystemTimeZoneById("Europe/Berlin"));
        Assert.Equal([23, 0, 1, 3, 4, 5, 6, 7, 8, 9], hours.Select(h => h.Hour));
        Assert.All(hours, h => Assert.Equal((1, 40), (h.BeatingShare, h.RatePerMin)));
    }

    [Fact]
    public void Stoppages_and_silences_are_whole_stretches()
    {
        using var store = new MemoryStore([Burst(0, 40), Burst(1, null), Burst(2, null), Burst(3, 40), Burst(9, 40), Burst(10, 40)]);
        (IReadOnlyList<TimeStretch> stopped, IReadOnlyList<TimeStretch> unknown) = Stretches.Of(store.States(KilledWriter.Ram, TimeSpanUtc.All), leastH: 0);
        Assert.Equal([new TimeStretch(Start.AddHours(0.5), Start.AddHours(1.5))], stopped);
        Assert.Equal([new TimeStretch(Start.AddHours(2), Start.AddHours(4.5))], unknown);
    }

    private static SeasonBurst Burst(int halfHours, double? rate) => KilledWriter.Burst(halfHours) with
    {
        StartUtc = Start.AddHours(0.5 * halfHours),
        State = rate is null ? RamState.StoppedShut : RamState.Beating,
        Figures = rate is { } r ? new Dictionary<SeasonFigure, SeasonValue> { [SeasonFigure.Rate] = new(r, null) } : new Dictionary<SeasonFigure, SeasonValue>(),
    };
}
