using Clackbeat.Site;
using Clackbeat.Tuning.Trials;

namespace Clackbeat.Tuning.Tests;

public class KnobTests
{
    [Theory]
    [InlineData("stroke 4 mm to 12 mm", "stroke", "mm", 4, 12, 0)]
    [InlineData("weight 200 to 900 g by 50 g", "weight", "g", 200, 900, 50)]
    [InlineData("spring 0 to 6 turns", "spring", "turns", 0, 6, 0)]
    [InlineData("stroke 0.4 cm to 12 mm", "stroke", "mm", 4, 12, 0)]
    public void A_knob_is_read_as_it_is_said(string text, string name, string unit, double lowest, double highest, double step)
    {
        Knob knob = Knob.Parse(text);

        Assert.Equal((name, unit), (knob.Name, knob.Unit));
        Assert.Equal(lowest, knob.Lowest, 9);
        Assert.Equal(highest, knob.Highest, 9);
        Assert.Equal(step, knob.Step, 9);
    }

    /// <summary>An inch is 25.4 mm by definition (international yard and pound agreement, 1959).</summary>
    [Fact]
    public void A_setting_may_be_given_in_another_unit_of_its_kind() =>
        Assert.Equal(6.35, Trials.Stroke.Setting("0.25 in"), 9);

    [Theory]
    [InlineData("stroke")]
    [InlineData("stroke 12 mm to 4 mm")]
    [InlineData("4 mm to 12 mm")]
    [InlineData("stroke 4 mm to 12 mm by 20 mm")]
    public void What_is_no_knob_is_refused_in_words(string text) =>
        Assert.Contains(text, Assert.Throws<InputException>(() => Knob.Parse(text)).Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("loose")]
    [InlineData("8 kg")]
    public void What_is_no_setting_is_refused_in_words(string text) =>
        Assert.Contains("stroke", Assert.Throws<InputException>(() => Trials.Stroke.Setting(text)).Message, StringComparison.Ordinal);
}
