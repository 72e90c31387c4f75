using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Model;
using Clackbeat.Words;

namespace Clackbeat.Report.Plots;

/// <summary>What plots draw from.</summary>
internal sealed record PlotInput(RamSite Site, RamAnalysis Analysis, RamAnalysis? Baseline)
{
    // The conventional metre of water, 9806.65 Pa (NIST SP 811, appendix B.8): plot lines need no better.
    private const double BarPerMetre = 0.0980665;

    /// <summary>Gauge pressure a still column up to the supply level would put on the sensor [bar].</summary>
    public double SupplyBar => (Site.Supply.HeadM - Site.Sensor.HeightM) * BarPerMetre;

    /// <summary>Gauge pressure a still column up to the delivery outlet would put on the sensor [bar].</summary>
    public double DeliveryBar => (Site.Delivery.HeadM - Site.Sensor.HeightM) * BarPerMetre;

    /// <summary>What the pipe may bear again and again, else what it is rated for [bar].</summary>
    public double? LimitBar => (Analysis.Pipe.AllowablePa ?? Analysis.Pipe.RatedPa) * 1e-5;

    /// <summary>What <see cref="LimitBar"/> is called.</summary>
    public string LimitName => Analysis.Pipe.AllowablePa is null ? Phrases.Say("plots.pipe-rating") : Phrases.Say("plots.pipes-limit-2");
}
