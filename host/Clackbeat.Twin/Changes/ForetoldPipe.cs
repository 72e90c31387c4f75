using Clackbeat.Hydraulics.Rating;
using Clackbeat.Site.Check;
using Clackbeat.Site.Model;

namespace Clackbeat.Twin.Changes;

/// <summary>The drive pipe against its rating under a foretold beat.</summary>
public static class ForetoldPipe
{
    /// <summary>The check. Fatigue counts the cycles of a whole record, so a foretold peak is judged by pressure and by its beats alone.</summary>
    /// <param name="site">The site after the change.</param>
    /// <param name="ram">What the ram does then.</param>
    public static PipeCheck Of(RamSite site, Prediction ram)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(ram);
        return PipeRating.Check(SiteLoad.Of(site) with
        {
            PeakPa = ram.PeakPa?.Value,
            PeakUncertaintyPa = ram.PeakPa?.U,
            BeatsPerMin = ram.RatePerMin?.Value,
        });
    }
}
