using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.Flow;

/// <summary>What the body pressure told about flow. Figures carry expanded uncertainties (k = 2); a figure that is null was withheld and <see cref="Limits"/> says why.</summary>
public sealed record FlowResult
{
    /// <summary>Flows.</summary>
    public FlowSummary Flow { get; init; } = new();

    /// <summary>Efficiencies.</summary>
    public EfficiencySummary Efficiency { get; init; } = new();

    /// <summary>Wave speed, pipe period and the sensor's zero.</summary>
    public DrivePipeSummary DrivePipe { get; init; } = new();

    /// <summary>The wave speed the site's pipe should have [m/s].</summary>
    public double ExpectedWaveSpeedMPerS { get; init; }

    /// <summary>Supply head the record tells [m above datum], where it contradicts the site's; null where the site's is believed.</summary>
    public Figure? FoundSupplyHeadM { get; init; }

    /// <summary>Expanded uncertainty of the sensor bias [Pa]; null when it was withheld.</summary>
    public double? SensorBiasUncertaintyPa { get; init; }

    /// <summary>Flow of each beat, by <see cref="Beat.Index"/>; a beat with a gap has none.</summary>
    public IReadOnlyDictionary<int, BeatFlow> Beats { get; init; } = new Dictionary<int, BeatFlow>();

    /// <summary>Where the energy of a mean beat goes; null when flows were withheld.</summary>
    public EnergySplit? Energy { get; init; }

    /// <summary>What the fit found besides, for diagnosis; null when flows were withheld.</summary>
    public FlowFeatures? Features { get; init; }

    /// <summary>What the record showed beside the figures.</summary>
    public IReadOnlyList<Fact> Findings { get; init; } = [];

    /// <summary>What could not be told or is weak, and why.</summary>
    public IReadOnlyList<Fact> Limits { get; init; } = [];
}

/// <summary>Where the energy drawn in a mean beat goes [J]; the parts add up to what was drawn.</summary>
/// <param name="DrawnJ">Drawn from the supply.</param>
/// <param name="DeliveredJ">Raised to the delivery outlet.</param>
/// <param name="DeliveryLossJ">Lost between body and outlet: delivery valve, vessel and main.</param>
/// <param name="WasteValveJ">Lost through the open waste valve.</param>
/// <param name="FrictionJ">Lost in drive pipe, entrance and the feed of a stand pipe.</param>
/// <param name="RestJ">The rest: waves that die out, recoil, and the errors of all the others.</param>
public sealed record EnergySplit(
    double DrawnJ, double DeliveredJ, double DeliveryLossJ, double WasteValveJ, double FrictionJ, double RestJ);

/// <summary>Numbers of the fit that speak of the ram's condition.</summary>
public sealed record FlowFeatures
{
    /// <summary>Head lost in the open waste valve over the square of the drive pipe's velocity [s²/m]; a property of the ram.</summary>
    public required double ValveConstant { get; init; }

    /// <summary>Losses of the drive pipe over those its site leads to expect.</summary>
    public required double LossFactor { get; init; }

    /// <summary>Velocity at the body as the delivery ends, mean over the beats [m/s]; clearly negative when water ran back before the valve shut.</summary>
    public required double VelocityAtDeliveryEnd { get; init; }

    /// <summary>What that velocity is for a valve that seats in time [m/s].</summary>
    public required double ExpectedAtDeliveryEnd { get; init; }

    /// <summary>Supply head at which the record is most at ease [m above datum], when the site's head is not believed.</summary>
    public required double SupplyHeadM { get; init; }

    /// <summary>Standard deviation of the closing velocity from beat to beat [m/s].</summary>
    public required double ClosingVelocityScatter { get; init; }

    /// <summary>Standard deviation of the sensor's noise in the open phase [Pa].</summary>
    public required double NoisePa { get; init; }

    /// <summary>What the uncertainty of the flows is made of.</summary>
    internal FlowEvidence Evidence { get; init; }
}
