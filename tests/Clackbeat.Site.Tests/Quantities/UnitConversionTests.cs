using Clackbeat.Site.Quantities;

namespace Clackbeat.Site.Tests.Quantities;

/// <summary>
/// Factors against NIST SP 811 (2008), Appendix B.8, "Factors for units listed alphabetically", to the digits printed
/// there; lengths and masses are exact by definition.
/// </summary>
public class UnitConversionTests
{
    [Theory]
    [InlineData(QuantityKind.Length, "1 ft", 0.3048)]
    [InlineData(QuantityKind.Length, "1 in", 0.0254)]
    [InlineData(QuantityKind.Length, "12 ft 6 in", 12.5 * 0.3048)]
    [InlineData(QuantityKind.Length, "12' 6\"", 12.5 * 0.3048)]
    [InlineData(QuantityKind.Length, "1 1/2 in", 0.0381)]
    [InlineData(QuantityKind.Length, "1/2 in", 0.0127)]
    [InlineData(QuantityKind.Length, "52.5 mm", 0.0525)]
    [InlineData(QuantityKind.Length, "-10 cm", -0.1)]
    [InlineData(QuantityKind.Length, "−10 cm", -0.1)]
    [InlineData(QuantityKind.Pressure, "1 psi", 6894.757)]
    [InlineData(QuantityKind.Pressure, "1 psig", 6894.757)]
    [InlineData(QuantityKind.Pressure, "1 bar", 1e5)]
    [InlineData(QuantityKind.Pressure, "1 mbar", 100)]
    [InlineData(QuantityKind.Pressure, "1 mH2O", 9806.65)]
    [InlineData(QuantityKind.Pressure, "1 m of water", 9806.65)]
    [InlineData(QuantityKind.Pressure, "1 cm of water", 98.0665)]
    [InlineData(QuantityKind.Pressure, "1 ft of water", 2989.067)]
    [InlineData(QuantityKind.Pressure, "1 kgf/cm²", 98066.5)]
    [InlineData(QuantityKind.Temperature, "54 °F", (54 - 32) / 1.8)]
    [InlineData(QuantityKind.Temperature, "12 °C", 12)]
    [InlineData(QuantityKind.Temperature, "12 C", 12)]
    [InlineData(QuantityKind.Velocity, "1 ft/s", 0.3048)]
    [InlineData(QuantityKind.Volume, "1 gal", 3.785412e-3)]
    [InlineData(QuantityKind.Volume, "1 L", 1e-3)]
    [InlineData(QuantityKind.Flow, "1 gpm", 6.309020e-5)]
    [InlineData(QuantityKind.Flow, "1 litres per minute", 1.666667e-5)]
    [InlineData(QuantityKind.Flow, "1 m³/h", 2.777778e-4)]
    [InlineData(QuantityKind.Mass, "1 lb", 0.45359237)]
    [InlineData(QuantityKind.Force, "1 lbf", 4.448222)]
    [InlineData(QuantityKind.Stiffness, "1 lbf/in", 175.1268)]
    [InlineData(QuantityKind.Duration, "2 min", 120)]
    [InlineData(QuantityKind.Duration, "20 ms", 0.02)]
    [InlineData(QuantityKind.Share, "0.5 %", 0.005)]
    public void A_unit_is_worth_what_the_standard_says(QuantityKind kind, string text, double expected) =>
        Assert.Equal(expected, QuantityText.Parse(kind, text), Math.Abs(expected) * 3e-7);

    [Fact]
    public void A_foot_of_water_differs_from_the_one_at_39_F_only_by_its_density() =>
        // NIST SP 811: foot of water (39.2 °F) 2.98898e3 Pa; the conventional one takes 1000 kg/m³.
        Assert.Equal(2988.98, QuantityText.Parse(QuantityKind.Pressure, "1 ft of water"), 0.15);

    [Theory]
    [InlineData(QuantityKind.Pressure, "kPa", 1000, 0)]
    [InlineData(QuantityKind.Pressure, "cm", 98.0665, 0)]
    [InlineData(QuantityKind.Duration, "day", 86400, 0)]
    [InlineData(QuantityKind.Temperature, "°F", 1 / 1.8, -32 / 1.8)]
    public void A_column_unit_is_factor_and_offset(QuantityKind kind, string unit, double scale, double offset)
    {
        LinearUnit column = QuantityText.Unit(kind, unit);
        Assert.Equal(scale, column.Scale, Math.Abs(scale) * 1e-9);
        Assert.Equal(offset, column.Offset, 1e-9);
    }

    [Fact]
    public void A_small_letter_keeps_its_meaning_where_a_capital_has_another() =>
        Assert.Equal(1e9, QuantityText.Parse(QuantityKind.Pressure, "1 MPa") / QuantityText.Parse(QuantityKind.Pressure, "1 mPa"), 1);
}
