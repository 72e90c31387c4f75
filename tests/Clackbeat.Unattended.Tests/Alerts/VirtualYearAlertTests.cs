using Clackbeat.Season.Alerts;
using Clackbeat.Season.Store;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.VirtualSeason;
using Xunit.Abstractions;

namespace Clackbeat.Unattended.Tests.Alerts;

/// <summary>Alerts over whole virtual years whose truth is known: nothing false in healthy ones, and every event told.</summary>
public class VirtualYearAlertTests(ITestOutputHelper output)
{
    // Twenty healthy years are asked for by CLACKBEAT_LONG=1.
    private static readonly int Years = Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1" ? 20 : 2;
    private static readonly RamSite Site = SiteFile.Parse(SiteTemplate.Text(Units.Metric), "the template");
    private static readonly TimeSpan Every = TimeSpan.FromMinutes(15);

    /// <summary>No wear and no event: whatever is told is false. Promised is one a year and ram at most.</summary>
    [Fact]
    public void Healthy_years_bring_at_most_one_false_alert_a_year()
    {
        SeasonScript healthy = SeasonScript.Quiet with { WearPerYear = 0, BurstS = 3 };
        var first = VirtualYear.Of(Site, healthy);
        int alerts = 0;
        for (int seed = 1; seed <= Years; seed++)
        {
            List<(AlertReading Reading, AlertChange Change, DateTimeOffset At)> told = Told(first.Again(healthy, seed), healthy);
            foreach ((AlertReading Reading, AlertChange Change, DateTimeOffset At) alert in told)
            {
                output.WriteLine($"seed {seed}: {alert.Change} {alert.Reading}");
            }

            alerts += told.Count(t => t.Change == AlertChange.Raised);
        }

        output.WriteLine($"{alerts} false alerts in {Years} ram-years");
        Assert.True(alerts <= Years, $"{alerts} false alerts in {Years} years");
    }

    [Fact]
    public void Every_event_of_the_virtual_year_is_told_once_soon_and_told_over()
    {
        SeasonScript script = new() { BurstS = 3 };
        List<(AlertReading Reading, AlertChange Change, DateTimeOffset At)> told = Told(VirtualYear.Of(Site, script), script);
        foreach ((AlertReading Reading, AlertChange Change, DateTimeOffset At) alert in told)
        {
            output.WriteLine($"{alert.At:yyyy-MM-dd HH:mm} {alert.Change} {alert.Reading.Kind}");
        }

        Assert.Equal([(AlertKind.Stopped, script.Frozen!.Value, script.Thawed)], Spans(told, AlertKind.Stopped, hours: 1));
        Assert.Equal([(AlertKind.Irregular, script.Stuck!.Value, script.Freed)], Spans(told, AlertKind.Irregular, hours: 2));
        Assert.Equal([(AlertKind.LoggerSilent, script.Silent!.Value, script.HeardAgain)], Spans(told, AlertKind.LoggerSilent, hours: 2));
    }

    // Kind, day of the event and day of its end, where the alert came within so many hours of both.
    private static IEnumerable<(AlertKind, DateOnly, DateOnly)> Spans(
        List<(AlertReading Reading, AlertChange Change, DateTimeOffset At)> told, AlertKind kind, double hours)
    {
        foreach ((AlertReading Reading, AlertChange Change, DateTimeOffset At) raised in told.Where(t => t.Reading.Kind == kind && t.Change == AlertChange.Raised))
        {
            (AlertReading Reading, AlertChange Change, DateTimeOffset At) cleared = told.First(t => t.Reading.Kind == kind && t.Change == AlertChange.Cleared && t.At > raised.At);
            Assert.InRange((raised.At.UtcDateTime - raised.At.UtcDateTime.Date).TotalHours, 0, hours);
            Assert.InRange((cleared.At.UtcDateTime - cleared.At.UtcDateTime.Date).TotalHours, 0, hours);
            yield return (kind, DateOnly.FromDateTime(raised.At.UtcDateTime), DateOnly.FromDateTime(cleared.At.UtcDateTime));
        }
    }

    private static List<(AlertReading, AlertChange, DateTimeOffset)> Told(VirtualYear year, SeasonScript script)
    {
        DateTimeOffset now = default;
        IReadOnlyList<MaintenanceMark> marks = [.. year.Marks().Where(_ => script.Replaced is not null)];
        var rules = new AlertRules(Site, new AlertLimits(), new RamHistory(), () => marks.LastOrDefault(m => m.AtUtc <= now)?.AtUtc);
        var streaks = new Dictionary<AlertKind, AlertStreak>();
        var told = new List<(AlertReading, AlertChange, DateTimeOffset)>();
        void Take(AlertReading reading, DateTimeOffset at)
        {
            (streaks[reading.Kind], AlertChange change) = AlertJudge.Take(streaks.GetValueOrDefault(reading.Kind, new AlertStreak()), reading);
            if (change != AlertChange.None)
            {
                told.Add((reading, change, at));
            }
        }

        foreach (SeasonBurst burst in year.Bursts())
        {
            // The service looks at the clock between bursts.
            for (DateTimeOffset look = now + Every; now != default && look < burst.StartUtc; look += Every)
            {
                if (rules.Silence(look, look - now, Every) is { } silence)
                {
                    Take(silence, look);
                }
            }

            now = burst.StartUtc;
            foreach (AlertReading reading in rules.Take(burst))
            {
                Take(reading, now);
            }
        }

        return told;
    }
}
