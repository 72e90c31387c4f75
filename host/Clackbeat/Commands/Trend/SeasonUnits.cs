using System.Globalization;
using Clackbeat.Season.Store;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Commands.Trend;

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
    public string Number(double value) => Phrases.Number(Rounding.Fixed(value * Factor, Decimals));

    /// <summary>A difference as the two figures show it, so that a reader who subtracts finds the same.</summary>
    /// <param name="before">The one figure, SI.</param>
    /// <param name="after">The other.</param>
    public string Difference(double before, double after)
    {
        double Shown(double value) => double.Parse(Rounding.Fixed(value * Factor, Decimals), CultureInfo.InvariantCulture);
        return $"{Phrases.Number(Rounding.Fixed(Shown(after) - Shown(before), Decimals))}{(Unit.Length == 0 ? "" : " " + Unit)}";
    }

    /// <summary>How a figure is shown.</summary>
    /// <param name="figure">The figure.</param>
    public static SeasonUnit Of(SeasonFigure figure) => figure switch
    {
        SeasonFigure.Rate => new(Phrases.Say("trend.rate"), "", 1, 1),
        SeasonFigure.Irregularity => new(Phrases.Say("trend.irregularity"), "%", 100, 1),
        SeasonFigure.DeliveryPressure => new(Phrases.Say("trend.delivery-pressure"), "bar", 1e-5, 2),
        SeasonFigure.PeakMedian => new(Phrases.Say("trend.peak-median"), "bar", 1e-5, 2),
        SeasonFigure.PeakMax => new(Phrases.Say("trend.peak-max"), "bar", 1e-5, 2),
        SeasonFigure.PeakTrue => new(Phrases.Say("trend.peak-true"), "bar", 1e-5, 2),
        SeasonFigure.Suction => new(Phrases.Say("trend.suction"), "bar", 1e-5, 2),
        SeasonFigure.MeanPressure => new(Phrases.Say("trend.mean-pressure"), "bar", 1e-5, 2),
        SeasonFigure.Delivered => new(Phrases.Say("trend.delivered"), "L/min", 60_000, 2),
        SeasonFigure.Waste => new(Phrases.Say("trend.waste"), "L/min", 60_000, 2),
        SeasonFigure.Drawn => new(Phrases.Say("trend.drawn"), "L/min", 60_000, 2),
        SeasonFigure.ClosingVelocity => new(Phrases.Say("trend.closing-velocity"), "m/s", 1, 2),
        SeasonFigure.Efficiency => new(Phrases.Say("trend.efficiency"), "%", 100, 1),
        SeasonFigure.Rankine => new(Phrases.Say("trend.rankine"), "%", 100, 1),
        SeasonFigure.DriveSide => new(Phrases.Say("trend.drive-side"), "%", 100, 1),
        SeasonFigure.SupplyHead => new(Phrases.Say("trend.supply-head"), "m", 1, 2),
        SeasonFigure.WaveSpeed => new(Phrases.Say("trend.wave-speed"), "m/s", 1, 0),
        SeasonFigure.RatingUse => new(Phrases.Say("trend.rating-use"), "%", 100, 0),
        SeasonFigure.Battery => new(Phrases.Say("trend.battery"), "V", 1, 1),
        _ => new(Phrases.Say("trend.fatigue-hour"), Phrases.Say("trend.millionths"), 1e6, 3),
    };

    /// <summary>The figure of a code typed by a person.</summary>
    /// <param name="code">The code.</param>
    /// <exception cref="InputException">There is no such figure.</exception>
    public static SeasonFigure Parse(string code) => SeasonFigures.TryParse(code, out SeasonFigure figure)
        ? figure
        : throw InputException.Of("trend.no-such-figure", ("figure", code), ("known", string.Join(", ", SeasonFigures.Codes)));
}
