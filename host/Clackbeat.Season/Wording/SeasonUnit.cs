using System.Globalization;
using Clackbeat.Season.Store;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Season.Wording;

/// <summary>Season figures as a keeper reads them.</summary>
/// <param name="Name">In words.</param>
/// <param name="Unit">Unit of display; empty for a plain number.</param>
/// <param name="Factor">From SI to that unit.</param>
/// <param name="Decimals">Decimals shown.</param>
public sealed record SeasonUnit(string Name, string Unit, double Factor, int Decimals)
{
    // US gallon, pound-force per square inch, foot: NIST SP 811 (2008), appendix B.
    private const double GallonM3 = 3.785411784e-3;
    private const double PsiPa = 6894.757293168;
    private const double FootM = 0.3048;

    /// <summary>Name and unit, such as "Peak (bar)".</summary>
    public string Label => Unit.Length == 0 ? Name : $"{Name} ({Unit})";

    /// <summary>A value with its unit.</summary>
    /// <param name="value">The value, SI.</param>
    public string Text(double value) => WithUnit(Number(value));

    /// <summary>A value with its ± and unit, on one line; without a ± as <see cref="Text(double)"/>.</summary>
    /// <param name="value">The value, SI.</param>
    public string Text(SeasonValue value) =>
        (value.IsUpperBound ? Phrases.Say("trend.at-most") : "")
        + WithUnit(value.U is > 0 and var u ? Phrases.WithMargin(value.Value * Factor, u * Factor) : Number(value.Value)).Replace(' ', '\u00a0');

    /// <summary>A value without its unit.</summary>
    /// <param name="value">The value, SI.</param>
    public string Number(double value) => Phrases.Number(Rounding.Fixed(value * Factor, Decimals));

    /// <summary>A difference as the two figures show it, so that a reader who subtracts finds the same.</summary>
    /// <param name="before">The one figure, SI.</param>
    /// <param name="after">The other.</param>
    public string Difference(double before, double after)
    {
        double Shown(double value) => double.Parse(Rounding.Fixed(value * Factor, Decimals), CultureInfo.InvariantCulture);
        return WithUnit(Phrases.Number(Rounding.Fixed(Shown(after) - Shown(before), Decimals)));
    }

    /// <summary>How a figure is shown.</summary>
    /// <param name="figure">The figure.</param>
    /// <param name="units">Units of display.</param>
    public static SeasonUnit Of(SeasonFigure figure, Units units = Units.Metric)
    {
        string name = Catalogue.Current.Say(NameOf(figure));
        return figure.Unit() switch
        {
            "Pa" => units == Units.Us ? new(name, "psi", 1 / PsiPa, 1) : new(name, "bar", 1e-5, 2),
            "m³/s" => units == Units.Us ? new(name, "gal/min", 60 / GallonM3, 2) : new(name, "L/min", 60_000, 2),
            "m/s" => units == Units.Us ? new(name, "ft/s", 1 / FootM, figure == SeasonFigure.WaveSpeed ? 0 : 1) : new(name, "m/s", 1, figure == SeasonFigure.WaveSpeed ? 0 : 2),
            "m" => units == Units.Us ? new(name, "ft", 1 / FootM, 1) : new(name, "m", 1, 2),
            "V" => new(name, "V", 1, 1),
            "1/min" => new(name, "", 1, 1),
            "1/h" => new(name, Phrases.Say("trend.millionths"), 1e6, 3),
            _ => new(name, "%", 100, figure == SeasonFigure.RatingUse ? 0 : 1),
        };
    }

    /// <summary>The figure of a code typed by a person.</summary>
    /// <param name="code">The code.</param>
    /// <exception cref="InputException">There is no such figure.</exception>
    public static SeasonFigure Parse(string code) => SeasonFigures.TryParse(code, out SeasonFigure figure)
        ? figure
        : throw InputException.Of("trend.no-such-figure", ("figure", code), ("known", string.Join(", ", SeasonFigures.Codes)));

    private string WithUnit(string number) => Unit.Length == 0 ? number : $"{number} {Unit}";

    private static string NameOf(SeasonFigure figure) => figure switch
    {
        SeasonFigure.Rate => "trend.rate",
        SeasonFigure.Irregularity => "trend.irregularity",
        SeasonFigure.DeliveryPressure => "trend.delivery-pressure",
        SeasonFigure.PeakMedian => "trend.peak-median",
        SeasonFigure.PeakMax => "trend.peak-max",
        SeasonFigure.PeakTrue => "trend.peak-true",
        SeasonFigure.Suction => "trend.suction",
        SeasonFigure.MeanPressure => "trend.mean-pressure",
        SeasonFigure.Delivered => "trend.delivered",
        SeasonFigure.Waste => "trend.waste",
        SeasonFigure.Drawn => "trend.drawn",
        SeasonFigure.ClosingVelocity => "trend.closing-velocity",
        SeasonFigure.Efficiency => "trend.efficiency",
        SeasonFigure.Rankine => "trend.rankine",
        SeasonFigure.DriveSide => "trend.drive-side",
        SeasonFigure.SupplyHead => "trend.supply-head",
        SeasonFigure.WaveSpeed => "trend.wave-speed",
        SeasonFigure.RatingUse => "trend.rating-use",
        SeasonFigure.Battery => "trend.battery",
        _ => "trend.fatigue-hour",
    };
}
