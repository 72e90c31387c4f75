using Clackbeat.Frame;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Remedies;
using Clackbeat.Words;

namespace Clackbeat.Commands.Rate;

/// <summary>Has the virtual ram of a site try what would help, so that reports and ratings, which know no virtual ram, can show it.</summary>
internal static class PipeAdvice
{
    // A report must not make anyone wait; whoever asks for the table alone has asked for it.
    private static readonly TimeSpan BesideAReport = TimeSpan.FromSeconds(4);
    private static readonly TimeSpan Asked = TimeSpan.FromSeconds(60);

    /// <summary>The table for a report; null where this site's virtual ram can't tell, which is then said.</summary>
    public static RemedyTable? ForReport(Session session, RamSite site)
    {
        try
        {
            return Study(session, site, BesideAReport);
        }
        catch (InputException problem)
        {
            session.Say(Phrases.Say("rating.advice-left-out", ("why", problem.Message)));
            return null;
        }
    }

    /// <summary>The table somebody asked for.</summary>
    /// <exception cref="InputException">This site's virtual ram can't tell.</exception>
    public static RemedyTable OnRequest(Session session, RamSite site) => Study(session, site, Asked);

    private static RemedyTable Study(Session session, RamSite site, TimeSpan time) => session.WithProgress(
        Phrases.Say("rating.trying"), progress => RemedyStudy.Of(site, time, progress, session.Stop));
}
