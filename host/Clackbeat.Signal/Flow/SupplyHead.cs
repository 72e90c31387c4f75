namespace Clackbeat.Signal.Flow;

/// <summary>The supply head the figures are worked out with.</summary>
/// <param name="HeadM">Head [m above datum].</param>
/// <param name="SpreadM">Its standard uncertainty [m].</param>
/// <param name="Found">True when the record tells it and the site's is not believed.</param>
internal readonly record struct SupplyHead(double HeadM, double SpreadM, bool Found)
{
    // How far a drought may take the level down, as a standard deviation over the site's head.
    private const double Loose = 0.3;
    private const double BelievedAt = 3;

    // The law's spread is set for the flows and reads too narrow for the head: without this the site's true head was
    // disbelieved in 7 of 96 rams of the sweep (docs/flow-method.md), with it in none.
    private const double FoundFactor = 2;

    /// <summary>The head as the site tells it.</summary>
    public static SupplyHead Site(double headM, SiteSpread spread) => new(headM, spread.SupplyM, false);

    /// <summary>Standard deviation a fit gives the head that the record is to tell [m].</summary>
    public static double LooseSpreadM(double siteHeadM) => Loose * siteHeadM;

    /// <summary>
    /// In a drought the level at the intake sinks, and a site file may be wrong: then the record itself has to tell the
    /// head. It is believed when, freed, it lies further from the site's than both uncertainties together explain.
    /// </summary>
    /// <param name="free">A fit that left the head free.</param>
    /// <param name="site">The head as the site tells it.</param>
    /// <returns>The head to believe.</returns>
    public static SupplyHead Believed(ColumnFit free, SupplyHead site)
    {
        double foundM = free.Model.SupplyHeadM;
        double spreadM = FoundFactor * Math.Sqrt(free.Covariance[ColumnFit.Supply, ColumnFit.Supply]);
        return Math.Abs(foundM - site.HeadM) < BelievedAt * Spreads.Root(spreadM, site.SpreadM)
            ? site
            : new SupplyHead(foundM, spreadM, true);
    }

    /// <summary>What to tell the user of a head that was found.</summary>
    public string Sentence(double siteHeadM) =>
        FormattableString.Invariant(
            $"The record fits a supply level {HeadM:0.00} m (± {2 * SpreadM:0.00} m) above the waste valve, ")
        + FormattableString.Invariant($"not the site file's {siteHeadM:0.00} m; flows and efficiencies are worked out with it. ")
        + "Look at the level in the intake and at its strainer, and check the heads in the site file.";
}
