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
    [InlineData("stroke 1/4 in to 1 1/2 in by 1/8 in", "stroke", "in", 0.25, 1.5, 0.125)]
    [InlineData("washers 0 to 6 by 1", "washers", "", 0, 6, 1)]
    [InlineData("spring 0 to 6 turns by 0.5 turns", "spring", "turns", 0, 6, 0.5)]
    public void A_knob_is_read_as_it_is_said(string text, string name, string unit, double lowest, double highest, double step)
    {
        var knob = Knob.Parse(text);

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
    // A twentieth of the range, rounded up to 1, 2 or 5 times a power of ten: 0.4, 0.0175, 35, 0.5.
    [InlineData("stroke 4 mm to 12 mm", 0.5)]
    [InlineData("stroke 0.15 in to 0.5 in", 0.02)]
    [InlineData("weight 200 g to 900 g", 50)]
    [InlineData("spring 0 to 10 turns", 0.5)]
    [InlineData("weight 200 g to 900 g by 10 g", 10)]
    public void Settings_are_proposed_in_round_figures_or_in_the_given_step(string text, double step)
    {
        var knob = Knob.Parse(text);
        Assert.Equal(step, knob.ProposedStep, 9);
        foreach (double share in new[] { 0.013, 0.31, 0.5, 0.77, 0.99 })
        {
            double setting = knob.Nearest(knob.Lowest + (share * knob.Span));
            double from = knob.Step > 0 ? knob.Lowest : 0;
            bool isRound = Math.Abs(Math.IEEERemainder(setting - from, step)) < 1e-9;
            Assert.True(isRound || setting == knob.Lowest || setting == knob.Highest, $"{setting}");
        }
    }

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
