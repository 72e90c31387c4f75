using Clackbeat.Site.Facts;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Site.Tests.Quantities;

public class QuantityTextTests
{
    [Theory]
    [InlineData("2,5 m", "comma")]
    [InlineData("1,000 m", "comma")]
    [InlineData("2.5", "no unit")]
    [InlineData("", "nothing is written")]
    [InlineData("m", "no number")]
    [InlineData("2.5.1 m", "no number")]
    [InlineData("2.5 kPa", "unit of a gauge pressure")]
    [InlineData("2.5 furlongs", "no unit known")]
    [InlineData("2.5 metrs", "Did you mean \"metre")]
    [InlineData("1e400 m", "beyond any real figure")]
    [InlineData("1/0 in", "no number")]
    [InlineData("NaN m", "no number")]
    public void A_length_that_is_none_is_refused_with_an_example(string text, string expected)
    {
        Assert.False(QuantityText.TryParse(QuantityKind.Length, text, out _, out Fact? problem));
        string said = Catalogue.English.Say(problem);
        Assert.Contains(expected, said, StringComparison.Ordinal);
        Assert.True(said.Contains("15 m", StringComparison.Ordinal) || expected.StartsWith("beyond", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("10 bara")]
    [InlineData("10 psia")]
    [InlineData("10 kPa absolute")]
    [InlineData("10 bar (a)")]
    public void Absolute_pressure_is_refused_by_name(string text)
    {
        InputException refusal = Assert.Throws<InputException>(() => QuantityText.Parse(QuantityKind.Pressure, text));
        Assert.Contains("absolute", refusal.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("0 kPa to 1000 kPa", 0, 1e6)]
    [InlineData("0 to 10 bar", 0, 1e6)]
    [InlineData("0-10 bar", 0, 1e6)]
    [InlineData("0–10 bar", 0, 1e6)]
    [InlineData("-1 bar to 9 bar", -1e5, 9e5)]
    [InlineData("-1 - 9 bar", -1e5, 9e5)]
    [InlineData("-100 kPa to 1 MPa", -1e5, 1e6)]
    public void A_range_may_be_written_in_several_ways(string text, double low, double high)
    {
        Assert.True(QuantityText.TryParseRange(QuantityKind.Pressure, text, out double readLow, out double readHigh, out _));
        Assert.Equal((low, high), (Math.Round(readLow, 6), Math.Round(readHigh, 6)));
    }

    [Theory]
    [InlineData("1000 kPa", "both ends")]
    [InlineData("10 bar to 0 bar", "lower end first")]
    [InlineData("0 m/s to 10 m/s", "unit of a speed")]
    public void A_range_that_is_none_is_refused(string text, string expected)
    {
        Assert.False(QuantityText.TryParseRange(QuantityKind.Pressure, text, out _, out _, out Fact? problem));
        Assert.Contains(expected, Catalogue.English.Say(problem), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(QuantityKind.Pressure, 245_166, Units.Metric, "2.45 bar")]
    [InlineData(QuantityKind.Pressure, 245_166, Units.Us, "35.6 psi")]
    [InlineData(QuantityKind.Pressure, -24_000, Units.Metric, "-0.240 bar")]
    [InlineData(QuantityKind.Length, 15, Units.Metric, "15.0 m")]
    [InlineData(QuantityKind.Length, 0.0525, Units.Metric, "52.5 mm")]
    [InlineData(QuantityKind.Length, 0.0525, Units.Us, "2.07 in")]
    [InlineData(QuantityKind.Velocity, 1250, Units.Metric, "1250 m/s")]
    [InlineData(QuantityKind.Flow, 1e-4, Units.Metric, "6.00 L/min")]
    [InlineData(QuantityKind.Flow, 1e-4, Units.Us, "1.59 gpm")]
    [InlineData(QuantityKind.Temperature, 12, Units.Us, "53.6 °F")]
    public void A_figure_is_shown_in_three_digits_and_the_readers_units(
        QuantityKind kind, double value, Units units, string expected) =>
        Assert.Equal(expected, QuantityFormat.Format(kind, value, units));

    [Theory]
    [InlineData(245_166, 3_100, "2.45 ± 0.03 bar")]
    [InlineData(245_166, 1_200, "2.452 ± 0.012 bar")]
    [InlineData(245_166, 51_000, "2.5 ± 0.5 bar")]
    // JCGM 100:2008, 7.2.6: two digits of the ± at most; and no fifth digit of a value.
    [InlineData(245_166, 9, "2.452 ± 0.001 bar")]
    public void The_uncertainty_decides_where_a_figure_ends(double value, double uncertainty, string expected) =>
        Assert.Equal(expected, QuantityFormat.Format(QuantityKind.Pressure, value, uncertainty, Units.Metric));

    [Theory]
    [InlineData(QuantityKind.Velocity, 1252.4, 41.8, Units.Us, "4110 ± 140 ft/s")]
    [InlineData(QuantityKind.Velocity, 1252.4, 41.8, Units.Metric, "1250 ± 40 m/s")]
    [InlineData(QuantityKind.Velocity, -0.0001, 0.02, Units.Metric, "0.000 ± 0.020 m/s")]
    public void The_margin_may_end_in_the_tens_and_nothing_is_minus_nought(
        QuantityKind kind, double value, double uncertainty, Units units, string expected) =>
        Assert.Equal(expected, QuantityFormat.Format(kind, value, uncertainty, units));

    [Theory]
    // 48.273 ± 0.006: the ± would ask for a fifth digit.
    [InlineData(48.273, 0.006, "48.27", "0.01")]
    [InlineData(48.273, 0.16, "48.27", "0.16")]
    [InlineData(4109, 137, "4110", "140")]
    [InlineData(0.0004, 0.02, "0.000", "0.020")]
    [InlineData(-0.859, 0.3, "-0.9", "0.3")]
    public void One_rule_ends_value_and_margin(double value, double uncertainty, string shown, string margin)
    {
        int places = Rounding.Places(value, uncertainty);
        Assert.Equal((shown, margin), (Rounding.Fixed(value, places), Rounding.Margin(uncertainty, places)));
    }

    [Theory]
    [InlineData(21079, "21100")]
    [InlineData(1252, "1252")]
    [InlineData(-0.04, "-0.0400")]
    [InlineData(0, "0")]
    public void A_bare_figure_has_three_digits_and_its_whole_ones_up_to_four(double value, string shown) =>
        Assert.Equal(shown, Rounding.Fixed(value, Rounding.PlacesOfBare(value, 3)));

    [Theory]
    [InlineData("6 1/2 in", 6.5)]
    [InlineData("6-1/2 in", 6.5)]
    [InlineData("6½ in", 6.5)]
    [InlineData("½ in", 0.5)]
    [InlineData("6 ⅜ \"", 6.375)]
    [InlineData("1 ft 6 1/2 in", 18.5)]
    [InlineData("1' 6½\"", 18.5)]
    public void Fractions_of_an_inch_are_read_as_they_are_written(string text, double inches) =>
        // An inch is 25.4 mm by definition.
        Assert.Equal(0.0254 * inches, QuantityText.Parse(QuantityKind.Length, text), 1e-9);

    [Fact]
    public void A_difference_of_temperature_has_no_offset() =>
        Assert.Equal("53.6 ± 0.9 °F", QuantityFormat.Format(QuantityKind.Temperature, 12, 0.5, Units.Us));

    [Fact]
    public void A_range_has_one_unit() =>
        Assert.Equal("0.20 to 1.5 m", QuantityFormat.FormatRange(QuantityKind.Length, 0.2, 1.5, Units.Metric));
}
