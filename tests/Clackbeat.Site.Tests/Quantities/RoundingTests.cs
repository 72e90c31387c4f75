using Clackbeat.Site.Quantities;

namespace Clackbeat.Site.Tests.Quantities;

/// <summary>How a figure with its ± is written: JCGM 100:2008, 7.2.6, and never more than four digits of a value.</summary>
public class RoundingTests
{
    [Theory]
    [InlineData(53.04, 15.3, "53 ± 15")]
    [InlineData(48.273, 0.006, "48.27 ± 0.01")]
    [InlineData(2.0671, 0.0562, "2.07 ± 0.06")]
    [InlineData(4109, 137, "4110 ± 140")]
    [InlineData(1.25, 0, "1.25")]
    [InlineData(-0.0004, 0.02, "0.000 ± 0.020")]
    public void A_number_ends_where_its_margin_does(double value, double uncertainty, string written) =>
        Assert.Equal(written, Rounding.WithMargin(value, uncertainty));
}
