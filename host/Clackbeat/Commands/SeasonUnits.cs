using System.Globalization;
using Clackbeat.Season.Store;
using Clackbeat.Site;

namespace Clackbeat.Commands;

/// <summary>Season figures as a keeper reads them.</summary>
/// <param name="Name">In words.</param>
/// <param name="Unit">Unit of display; empty for a plain number.</param>
/// <param name="Factor">From SI to that unit.</param>
/// <param name="Decimals">Decimals shown.</param>
internal sealed record SeasonUnit(string Name, string Unit, double Factor, int Decimals)
{
    /// <summary>Name and unit, such as "Peak (bar)".</summary>
    public string Label => Unit.Length == 0 ? Name : $"{Name} ({Unit})";

    /// <summary>A value with its unit.</summary>
    /// <param name="value">The value, SI.</param>
    public string Text(double value) => $"{Number(value)}{(Unit.Length == 0 ? "" : " " + Unit)}";

    /// <summary>A value without its unit.</summary>
    /// <param name="value">The value, SI.</param>
    public string Number(double value) => (value * Factor).ToString("F" + Decimals, CultureInfo.InvariantCulture);

    /// <summary>How a figure is shown.</summary>
    /// <param name="figure">The figure.</param>
    public static SeasonUnit Of(SeasonFigure figure) => figure switch
    {
        SeasonFigure.Rate => new("Beats a minute", "", 1, 1),
        SeasonFigure.Irregularity => new("Irregularity", "%", 100, 1),
        SeasonFigure.DeliveryPressure => new("Delivery pressure", "bar", 1e-5, 2),
        SeasonFigure.PeakMedian => new("Usual peak", "bar", 1e-5, 2),
        SeasonFigure.PeakMax => new("Highest sample", "bar", 1e-5, 2),
        SeasonFigure.PeakTrue => new("True peak, estimated", "bar", 1e-5, 2),
        SeasonFigure.Suction => new("Lowest suction", "bar", 1e-5, 2),
        SeasonFigure.MeanPressure => new("Mean pressure", "bar", 1e-5, 2),
        SeasonFigure.Delivered => new("Delivered", "L/min", 60_000, 2),
        SeasonFigure.Waste => new("To waste", "L/min", 60_000, 2),
        SeasonFigure.Drawn => new("Drawn", "L/min", 60_000, 2),
        SeasonFigure.ClosingVelocity => new("Closing velocity", "m/s", 1, 2),
        SeasonFigure.Efficiency => new("Efficiency (D'Aubuisson)", "%", 100, 1),
        SeasonFigure.Rankine => new("Efficiency (Rankine)", "%", 100, 1),
        SeasonFigure.DriveSide => new("Efficiency (drive side)", "%", 100, 1),
        SeasonFigure.SupplyHead => new("Supply head", "m", 1, 2),
        SeasonFigure.WaveSpeed => new("Wave speed", "m/s", 1, 0),
        SeasonFigure.RatingUse => new("Peak over what is allowed", "%", 100, 0),
        _ => new("Fatigue an hour", "millionths", 1e6, 3),
    };

    /// <summary>The figure of a code typed by a person.</summary>
    /// <param name="code">The code.</param>
    /// <exception cref="InputException">There is no such figure.</exception>
    public static SeasonFigure Parse(string code) => SeasonFigures.TryParse(code, out SeasonFigure figure)
        ? figure
        : throw new InputException($"--figure {code}: there is no such figure. Choose from {string.Join(", ", SeasonFigures.Codes)}.");
}
