using Clackbeat.Frame;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Remedies;
using Clackbeat.Words;

namespace Clackbeat.Commands.Rate;

/// <summary>Has the virtual ram of a site try what would help, for a rating without a record.</summary>
internal static class PipeAdvice
{
    private static readonly TimeSpan Asked = TimeSpan.FromSeconds(60);

    /// <summary>The table somebody asked for.</summary>
    /// <exception cref="InputException">This site's virtual ram can't tell.</exception>
    public static RemedyTable OnRequest(Session session, RamSite site) => session.WithProgress(
        Phrases.Say("rating.trying"), progress => RemedyStudy.Of(site, Asked, progress, session.Stop));
}
