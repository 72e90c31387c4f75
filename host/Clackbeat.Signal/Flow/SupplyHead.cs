using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.Flow;

/// <summary>The supply head the figures are worked out with.</summary>
/// <param name="HeadM">Head [m above datum].</param>
/// <param name="UncertaintyM">Its standard uncertainty [m].</param>
/// <param name="Found">True when the record tells it and the site's is not believed.</param>
/// <param name="FeedLossM">How far the mean level of a stand pipe stands under it [m]; 0 without one.</param>
internal readonly record struct SupplyHead(double HeadM, double UncertaintyM, bool Found, double FeedLossM = 0)
{
    // How far a drought may take the level down, as a standard deviation over the site's head.
    private const double Loose = 0.3;
    private const double BelievedAt = 3;

    // The law's uncertainty is set for the flows and reads too narrow for the head: without this the site's true head was
    // disbelieved in 7 of 96 rams of the sweep (docs/flow-method.md), with it in none.
    private const double FoundFactor = 2;

    /// <summary>The head as the site tells it.</summary>
    public static SupplyHead Site(double headM, SiteUncertainty siteUncertainty, double feedLossM) =>
        new(headM, siteUncertainty.SupplyM, false, feedLossM);

    /// <summary>Standard deviation a fit gives the head that the record is to tell [m].</summary>
    public static double LooseUncertaintyM(double siteHeadM) => Loose * siteHeadM;

    /// <summary>
    /// In a drought the level at the intake sinks, and a site file may be wrong: then the record itself has to tell the
    /// head. It is believed when, freed, it lies further from the site's than both uncertainties together explain.
    /// </summary>
    /// <param name="free">A fit that left the head free.</param>
    /// <param name="site">The head as the site tells it.</param>
    /// <returns>The head to believe.</returns>
    public static SupplyHead Believed(ColumnFit free, SupplyHead site)
    {
        double foundM = free.Model.SupplyHeadM + site.FeedLossM;
        double uncertaintyM = FoundFactor * Math.Sqrt(free.Covariance[ColumnFit.Supply, ColumnFit.Supply]);
        return Math.Abs(foundM - site.HeadM) < BelievedAt * StandardUncertainty.Combine(uncertaintyM, site.UncertaintyM)
            ? site
            : new SupplyHead(foundM, uncertaintyM, true, site.FeedLossM);
    }

    /// <summary>What to tell the user of a head that was found.</summary>
    public Fact Told(double siteHeadM) =>
        Fact.Of("supply-head-found", ("head_m", HeadM), ("head_u_m", 2 * UncertaintyM), ("site_head_m", siteHeadM));
}
