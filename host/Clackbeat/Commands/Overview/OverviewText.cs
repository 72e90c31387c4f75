using Clackbeat.Frame;
using Clackbeat.Season.Overview;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Overview;
using Clackbeat.Words;

namespace Clackbeat.Commands.Overview;

/// <summary>All rams on a terminal: a line each, and for those that need a visit why and what to do.</summary>
internal static class OverviewText
{
    /// <summary>Writes it.</summary>
    /// <param name="session">Where it goes.</param>
    /// <param name="visits">The rams, the most urgent first.</param>
    /// <param name="atUtc">As of when.</param>
    /// <param name="units">Units.</param>
    public static void Write(Session session, IReadOnlyList<RamVisit> visits, DateTimeOffset atUtc, Units units)
    {
        session.Out.WriteLine(OverviewWords.Headline(visits));
        Layout.Table(
            session,
            [Phrases.Say("overview.ram"), Phrases.Say("overview.state"), Phrases.Say("overview.heard"), Phrases.Say("overview.water"), ""],
            visits.Select(v => (IReadOnlyList<string>)
            [
                v.Summary.Ram, OverviewWords.State(v), OverviewWords.Heard(v, atUtc), v.DailyM3PerS is { } water ? DailyWater.Text(water, units) : Phrases.Say("overview.unknown"), OverviewWords.Urgency(v),
            ]));
        foreach (RamVisit visit in visits.Where(v => v.Urgency != VisitUrgency.None))
        {
            session.Out.WriteLine(visit.Summary.Ram);
            Layout.Bullets(session, [.. OverviewWords.Reasons(visit), .. OverviewWords.ToDo(visit) is { } toDo ? [toDo] : Array.Empty<string>()]);
        }
    }
}
