namespace Clackbeat.Site.Tests;

public class SpellingTests
{
    private static readonly string[] Known = ["length", "bore", "wall", "pressure_rating", "wave_speed"];

    [Theory]
    [InlineData("lenght", "length")]
    [InlineData("bor", "bore")]
    [InlineData("pressurerating", "pressure_rating")]
    [InlineData("Wave-Speed", "wave_speed")]
    [InlineData("temperature_of_air", null)]
    public void The_nearest_word_is_offered_only_when_it_is_near(string word, string? expected) =>
        Assert.Equal(expected, Spelling.Nearest(word, Known));
}
