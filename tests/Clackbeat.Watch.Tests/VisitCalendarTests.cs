using System.Globalization;
using Clackbeat.Season.Overview;
using Clackbeat.Season.Store;
using Clackbeat.Signal.States;
using Clackbeat.Watch.Overview;

namespace Clackbeat.Watch.Tests;

/// <summary>The file of due visits, read line by line as RFC 5545 has it.</summary>
public class VisitCalendarTests
{
    private static readonly DateTimeOffset Now = new(2026, 5, 1, 22, 30, 0, TimeSpan.Zero);
    private static readonly TimeZoneInfo Zone = TimeZoneInfo.CreateCustomTimeZone("test", TimeSpan.FromHours(2), "test", "test");

    [Fact]
    public void Each_ram_that_needs_a_visit_has_one_entry_on_its_day()
    {
        string[] lines = Lines(Now);
        Assert.Equal(["BEGIN:VCALENDAR", "END:VCALENDAR"], [lines[0], lines[^1]]);
        Assert.Equal(2, lines.Count(l => l == "BEGIN:VEVENT"));

        // 22:30 UTC is half past midnight two hours ahead: the stopped ram's day is the 2nd, the silent one's a week later.
        Assert.Equal(["DTSTART;VALUE=DATE:20260502", "DTSTART;VALUE=DATE:20260509"], lines.Where(l => l.StartsWith("DTSTART", StringComparison.Ordinal)).Order());
        Assert.Contains("DTSTAMP:20260501T223000Z", lines);
        string place = Assert.Single(lines, l => l.StartsWith("GEO:", StringComparison.Ordinal))[4..];
        Assert.Equal([-13.25, 33.5], place.Split(';').Select(d => double.Parse(d, CultureInfo.InvariantCulture)));
        Assert.Contains(lines, l => l.StartsWith("SUMMARY:Mill\\, upper: ", StringComparison.Ordinal));
        Assert.DoesNotContain(lines, l => l.Contains("Well one", StringComparison.Ordinal));
        Assert.Equal(2, lines.Count(l => l.StartsWith("UID:", StringComparison.Ordinal)));
    }

    /// <summary>RFC 5545 asks for lines of 75 octets and CR LF; a later file must carry the same UID with a greater SEQUENCE.</summary>
    [Fact]
    public void A_file_made_later_replaces_the_one_before()
    {
        Assert.DoesNotContain(Text(Now).Split("\r\n"), l => System.Text.Encoding.UTF8.GetByteCount(l) > 75 || l.Contains('\n', StringComparison.Ordinal));
        Assert.Equal(Of(Now, "UID:"), Of(Now.AddHours(2), "UID:"));
        Assert.True(int.Parse(Of(Now, "SEQUENCE:")[0][9..], null) < int.Parse(Of(Now.AddHours(2), "SEQUENCE:")[0][9..], null));
    }

    private static string[] Of(DateTimeOffset at, string begins) => [.. Lines(at).Where(l => l.StartsWith(begins, StringComparison.Ordinal))];

    private static string[] Lines(DateTimeOffset at) =>
        Text(at).Replace("\r\n ", "", StringComparison.Ordinal).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);

    private static string Text(DateTimeOffset at)
    {
        RamSummary Ram(string name, RamState state, double silentH) => new(name, new BurstState(Now.AddHours(-silentH), 60, state)) { SpacingS = 900, BeatingShare = 1 };
        var entries = new Dictionary<string, RamEntry> { ["Mill, upper"] = new("Mill, upper", new Position(-13.25, 33.5), null, "Anna") };
        return VisitCalendar.Of(
            VisitRules.Judge([Ram("Mill, upper", RamState.StoppedOpen, 0.1), Ram("Ford", RamState.Beating, 100), Ram("Well one", RamState.Beating, 0.1)], entries, at), at, Zone);
    }
}
