using Clackbeat.Site;
using Clackbeat.Site.Quantities;
using Clackbeat.Twin.Changes;

namespace Clackbeat.Twin.Tests;

public class SettingTests
{
    [Theory]
    [InlineData("-25 %", 0.75)]
    [InlineData("+25 %", 1.25)]
    [InlineData("25%", 1.25)]
    [InlineData("−10 %", 0.9)]
    [InlineData("6 mm", 0.75)]
    public void A_change_is_read_in_per_cent_or_as_a_new_value(string text, double factor) =>
        Assert.Equal(factor, Setting.Parse("--stroke", text, QuantityKind.Length).Over("--stroke", 0.008, "[waste_valve] stroke"), 9);

    [Theory]
    [InlineData("shorter")]
    [InlineData("-x %")]
    [InlineData("-100 %")]
    [InlineData("-3 mm")]
    [InlineData("")]
    public void What_is_no_change_is_refused_with_an_example(string text)
    {
        InputException error = Assert.Throws<InputException>(() => Setting.Parse("--stroke", text, QuantityKind.Length));
        Assert.Contains("--stroke", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_new_value_needs_the_old_one() => Assert.Contains(
        "[waste_valve] stroke",
        Assert.Throws<InputException>(() => Setting.Parse("--stroke", "6 mm", QuantityKind.Length).Over("--stroke", null, "[waste_valve] stroke")).Message,
        StringComparison.Ordinal);
}
