using System.Globalization;
using Clackbeat.Planning.Wishes;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Watch.Plans;

/// <summary>A form's field has a usual unit: whoever types a bare number means that one.</summary>
internal static class BareUnit
{
    /// <summary>The text, with the unit behind it where it is a bare number.</summary>
    /// <param name="field">The field.</param>
    /// <param name="text">What was typed.</param>
    /// <param name="units">The form's units.</param>
    public static string Added(string field, string text, Units units) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out _) && Of(field, units) is { } unit ? $"{text} {unit}" : text;

    private static string? Of(string field, Units units) => (field, units) switch
    {
        (WishFields.SupplyHead or WishFields.Lift or WishFields.DeliveryLength or WishFields.DriveLength, Units.Us) => "ft",
        (WishFields.SupplyHead or WishFields.Lift or WishFields.DeliveryLength or WishFields.DriveLength, _) => "m",
        (WishFields.SupplyFlow or WishFields.DryFlow, Units.Us) => "gpm",
        (WishFields.SupplyFlow or WishFields.DryFlow, _) => "L/min",
        (WishFields.Need, Units.Us) => "gal/day",
        (WishFields.Need, _) => "L/day",
        (WishFields.Temperature, Units.Us) => "°F",
        (WishFields.Temperature, _) => "°C",
        (WishFields.Shortfall, _) => "%",
        _ => null,
    };
}
