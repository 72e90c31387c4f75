using System.Text.Json;

namespace Clackbeat.Season.Store;

/// <summary>
/// A figure that is kept for every burst, SI units, gauge pressures. The store keeps it by <see cref="SeasonFigures.Code"/>,
/// never by number, so the order here is free and a member may be added without a migration.
/// </summary>
public enum SeasonFigure
{
    /// <summary>Beats a minute.</summary>
    Rate,

    /// <summary>Standard deviation of the interval over its mean.</summary>
    Irregularity,

    /// <summary>Delivery plateau [Pa].</summary>
    DeliveryPressure,

    /// <summary>Median of the beats' largest samples [Pa].</summary>
    PeakMedian,

    /// <summary>Largest sample [Pa].</summary>
    PeakMax,

    /// <summary>Estimated peak [Pa].</summary>
    PeakTrue,

    /// <summary>Lowest suction [Pa].</summary>
    Suction,

    /// <summary>Time mean of the pressure [Pa].</summary>
    MeanPressure,

    /// <summary>Delivered flow [m³/s].</summary>
    Delivered,

    /// <summary>Flow through the waste valve [m³/s].</summary>
    Waste,

    /// <summary>Flow drawn from the supply [m³/s].</summary>
    Drawn,

    /// <summary>Velocity in the drive pipe as the waste valve shuts [m/s].</summary>
    ClosingVelocity,

    /// <summary>D'Aubuisson's efficiency, as a fraction.</summary>
    Efficiency,

    /// <summary>Rankine's efficiency, as a fraction.</summary>
    Rankine,

    /// <summary>Energy through the delivery valve over energy drawn, as a fraction.</summary>
    DriveSide,

    /// <summary>Supply head: what the record told where it contradicts the site file, else the site file's [m].</summary>
    SupplyHead,

    /// <summary>Measured wave speed [m/s].</summary>
    WaveSpeed,

    /// <summary>Peak over what a recurring load may reach.</summary>
    RatingUse,

    /// <summary>Miner's sum that an hour of such beating adds, central estimate [1/h].</summary>
    FatiguePerHour,

    /// <summary>The same by the longest life of the range [1/h].</summary>
    FatiguePerHourLow,

    /// <summary>The same by the shortest life of the range [1/h].</summary>
    FatiguePerHourHigh,

    /// <summary>The logger's battery [V].</summary>
    Battery,

    /// <summary>Effective area of the open waste valve, by the twin [m²]: it goes with the stroke and with what narrows the gap.</summary>
    TwinOpening,

    /// <summary>Head across the open waste valve that lifts its plug, by the twin [m]: it goes with weight and spring.</summary>
    TwinPlugHead,

    /// <summary>Losses of strainer, intake and drive pipe over those expected, by the twin.</summary>
    TwinLosses,

    /// <summary>Head in the air vessel, by the twin [m].</summary>
    TwinVesselHead,

    /// <summary>What makes the delivery valve seat late, over the designed, by the twin.</summary>
    TwinLateness,

    /// <summary>Free gas in the drive pipe, as a share of its volume, by the twin.</summary>
    TwinGas,
}

/// <summary>Codes of figures, in the store and on the command line.</summary>
public static class SeasonFigures
{
    private static readonly string[] InOrder = [.. Enum.GetNames<SeasonFigure>().Select(JsonNamingPolicy.KebabCaseLower.ConvertName)];

    private static readonly Dictionary<string, SeasonFigure> ByCode =
        Enum.GetValues<SeasonFigure>().ToDictionary(Code, StringComparer.Ordinal);

    /// <summary>All codes as SQL text constants.</summary>
    internal static string SqlList { get; } = string.Join(", ", InOrder.Select(code => $"'{code}'"));

    /// <summary>All codes.</summary>
    public static IEnumerable<string> Codes => ByCode.Keys;

    /// <summary>The figure's code: its name in lower case with hyphens.</summary>
    /// <param name="figure">The figure.</param>
    public static string Code(this SeasonFigure figure) => InOrder[(int)figure];

    /// <summary>The figure of a code; a store of a later program may hold others.</summary>
    /// <param name="code">The code.</param>
    /// <param name="figure">The figure, where there is one.</param>
    public static bool TryParse(string code, out SeasonFigure figure) => ByCode.TryGetValue(code, out figure);

    /// <summary>The unit a figure is kept in; pressures are gauge.</summary>
    /// <param name="figure">The figure.</param>
    public static string Unit(this SeasonFigure figure) => figure switch
    {
        SeasonFigure.Rate => "1/min",
        SeasonFigure.Delivered or SeasonFigure.Waste or SeasonFigure.Drawn => "m³/s",
        SeasonFigure.ClosingVelocity or SeasonFigure.WaveSpeed => "m/s",
        SeasonFigure.SupplyHead or SeasonFigure.TwinPlugHead or SeasonFigure.TwinVesselHead => "m",
        SeasonFigure.TwinOpening => "m²",
        SeasonFigure.Battery => "V",
        SeasonFigure.FatiguePerHour or SeasonFigure.FatiguePerHourLow or SeasonFigure.FatiguePerHourHigh => "1/h",
        SeasonFigure.DeliveryPressure or SeasonFigure.PeakMedian or SeasonFigure.PeakMax or SeasonFigure.PeakTrue
            or SeasonFigure.Suction or SeasonFigure.MeanPressure => "Pa",
        _ => "1",
    };

    /// <summary>A part of the ram by its twin: it doesn't go with the supply level.</summary>
    /// <param name="figure">The figure.</param>
    public static bool IsPart(this SeasonFigure figure) => figure >= SeasonFigure.TwinOpening;
}
