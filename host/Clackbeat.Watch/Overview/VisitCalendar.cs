using System.Security.Cryptography;
using System.Text;
using Clackbeat.Season.Overview;
using Clackbeat.Words;
using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Serialization;

namespace Clackbeat.Watch.Overview;

/// <summary>
/// Due visits as an iCalendar file (RFC 5545), which every calendar program takes: an all-day entry for each ram that needs one. A ram keeps one
/// entry, by its UID, so that a file made anew replaces the one before.
/// </summary>
public static class VisitCalendar
{
    // "At the next round": a week is what a keeper's round takes.
    private const int RoundDays = 7;

    /// <summary>Writes the file's text.</summary>
    /// <param name="visits">The rams.</param>
    /// <param name="atUtc">Now.</param>
    /// <param name="zone">Whose days.</param>
    public static string Of(IEnumerable<RamVisit> visits, DateTimeOffset atUtc, TimeZoneInfo zone)
    {
        var calendar = new Calendar { ProductId = "-//Clackbeat//Visits//EN", Method = "PUBLISH" };
        var today = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(atUtc, zone).DateTime);
        foreach (RamVisit visit in visits.Where(v => v.Urgency != VisitUrgency.None))
        {
            calendar.Events.Add(Event(visit, today, atUtc));
        }

        return new CalendarSerializer().SerializeToString(calendar) ?? "";
    }

    private static CalendarEvent Event(RamVisit visit, DateOnly today, DateTimeOffset atUtc)
    {
        DateOnly day = visit.Urgency == VisitUrgency.Now ? today : today.AddDays(RoundDays);
        string ram = visit.Summary.Ram;
        string[] reasons = [.. OverviewWords.Reasons(visit), .. OverviewWords.ToDo(visit) is { } toDo ? [toDo] : Array.Empty<string>()];
        var entry = new CalendarEvent
        {
            Uid = $"{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(ram)))[..32]}@clackbeat.invalid",
            DtStamp = new CalDateTime(atUtc.UtcDateTime, "UTC"),
            Start = new CalDateTime(day),
            End = new CalDateTime(day.AddDays(1)),
            Summary = Phrases.Say("overview.calendar-entry", ("ram", ram), ("urgency", OverviewWords.Urgency(visit))),
            Description = string.Join("\n", reasons),
            Transparency = TransparencyType.Transparent,
            Priority = visit.Urgency == VisitUrgency.Now ? 1 : 5,
        };

        // What is replaced must look newer (RFC 5545, 3.8.7.4).
        entry.Sequence = (int)(atUtc - DateTimeOffset.UnixEpoch).TotalMinutes;
        if (visit.Entry?.Place is { } place)
        {
            entry.GeographicLocation = new GeographicLocation(place.LatitudeDeg, place.LongitudeDeg);
        }

        if (visit.Entry?.Keeper is { Length: > 0 } keeper)
        {
            entry.Contacts.Add(keeper);
        }

        return entry;
    }
}
