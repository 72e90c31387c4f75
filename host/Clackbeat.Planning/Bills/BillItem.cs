using Clackbeat.Site.Facts;

namespace Clackbeat.Planning.Bills;

/// <summary>What a quantity of a bill counts.</summary>
public enum BillUnit
{
    /// <summary>Pieces.</summary>
    Piece,

    /// <summary>Metres of pipe.</summary>
    Metre,

    /// <summary>Cubic metres of a tank.</summary>
    CubicMetre,

    /// <summary>Watts of solar panels.</summary>
    Watt,

    /// <summary>Litres of fuel a year.</summary>
    LitreAYear,

    /// <summary>Kilowatt hours a year.</summary>
    KilowattHourAYear,
}

/// <summary>A line of a bill: what, how much, and what it costs where the user gave a price.</summary>
/// <param name="Code">What: an item of <see cref="PriceNames"/>.</param>
/// <param name="Quantity">How much.</param>
/// <param name="Unit">Of what.</param>
/// <param name="Detail">Size and class; null where the name says it all.</param>
/// <param name="Price">The user's price of one; null where none was given.</param>
public sealed record BillItem(string Code, double Quantity, BillUnit Unit, Fact? Detail, double? Price)
{
    /// <summary>Quantity times price; null without a price.</summary>
    public double? Cost => Price * Quantity;

    /// <summary>It is to be paid every year.</summary>
    public bool IsYearly => Unit is BillUnit.LitreAYear or BillUnit.KilowattHourAYear;
}
