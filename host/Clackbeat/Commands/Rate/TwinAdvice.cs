using Clackbeat.Frame;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Content;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Twin.Fitting;
using Clackbeat.Twin.Remedies;
using Clackbeat.Twin.Shifts;
using Clackbeat.Words;

namespace Clackbeat.Commands.Rate;

/// <summary>Fits the twin of a record's ram for what a report and an analysis tell by it.</summary>
internal static class TwinAdvice
{
    /// <summary>What would help this ram, and which parts have moved since the baseline.</summary>
    public static TwinPart ForReport(Session session, RamSite site, RamAnalysis analysis, RamAnalysis? baseline)
    {
        if (Fit(session, site, analysis) is not { } twin)
        {
            return new TwinPart { WhyNoRemedies = Fact.Of("remedy.no-twin") };
        }

        RemedyTable? remedies = session.WithProgress(Phrases.Say("rating.trying"), _ => TwinRemedies.Of(site, analysis, twin, session.Stop));
        return new TwinPart
        {
            Remedies = remedies,
            WhyNoRemedies = remedies is not null ? null : Fact.Of(twin.Fits ? "remedy.no-flow" : "remedy.weak-twin"),
            Moved = Moved(session, site, twin, baseline),
        };
    }

    /// <summary>Which parts have moved since the baseline; empty without one, or where no twin can be fitted to the record.</summary>
    public static IReadOnlyList<Fact> Moved(Session session, RamSite site, RamAnalysis analysis, RamAnalysis? baseline) =>
        baseline is not null && Fit(session, site, analysis) is { } twin ? Moved(session, site, twin, baseline) : [];

    /// <summary>The same of a twin that is fitted already.</summary>
    public static IReadOnlyList<Fact> Moved(Session session, RamSite site, FittedTwin twin, RamAnalysis? baseline) =>
        baseline is not null && Fit(session, site, baseline) is { } before ? MovedParts.Of(site, before, twin) : [];

    private static FittedTwin? Fit(Session session, RamSite site, RamAnalysis analysis)
    {
        try
        {
            return session.WithProgress(Phrases.Say("whatif.fitting"), _ => FittedTwin.Of(site, analysis, session.Stop));
        }
        catch (InputException)
        {
            // A site that carries no ram has no twin; the checks of the site say what is wrong with it.
            return null;
        }
    }
}
