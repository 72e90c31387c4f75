using System.Globalization;
using System.Text.RegularExpressions;

namespace Clackbeat.Sensing.Tests.Pages;

/// <summary>
/// The figures on the hardware pages are those of the code. Behind each stands its name in a comment, which a reader
/// doesn't see: <c>746 Hz&lt;!--filter-corner--&gt;</c>.
/// </summary>
public partial class HardwarePageTests
{
    // Twelve months, named as a reader names them.
    private static readonly string[] Months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

    private static readonly int[] Latitudes = [0, 30, 45, 55];

    public static TheoryData<string> Pages => [.. PageNames];

    private static IEnumerable<string> PageNames => Directory
        .EnumerateFiles(Repository.PathOf("hardware"), "*.md").Select(p => Path.GetFileName(p)!).Order(StringComparer.Ordinal)
        .Append("../firmware/README.md");

    [Theory]
    [MemberData(nameof(Pages))]
    public void EachFigureOfAPageIsWhatThePartsAddUpTo(string page)
    {
        string text = Repository.Text("hardware", page);
        Assert.All(Name().Matches(text), match =>
        {
            string name = match.Groups[1].Value;
            Assert.True(PageFigures.All.TryGetValue(name, out string? figure), $"{page}: nothing works out '{name}'");
            Assert.True(
                text[..match.Index].TrimEnd('*').EndsWith(figure!, StringComparison.Ordinal),
                $"{page}: '{name}' is {figure}, the page says …{text[Math.Max(0, match.Index - 40)..match.Index]}");
        });
    }

    [Fact]
    public void EachFigureThatIsWorkedOutStandsOnAPage()
    {
        HashSet<string> named = [.. PageNames.SelectMany(p => Name().Matches(Repository.Text("hardware", p)).Select(m => m.Groups[1].Value))];
        Assert.Empty(PageFigures.All.Keys.Except(named));
    }

    // Tables are made of figures: one that the code doesn't work out may not slip into them.
    [Theory]
    [InlineData("wiring.md", "## The filter")]
    [InlineData("power.md", "| schedule |")]
    [InlineData("fitting.md", "| branch |")]
    public void NoFigureOfATableGoesUnchecked(string page, string from)
    {
        string text = Repository.Text("hardware", page);
        string table = text[text.IndexOf(from, StringComparison.Ordinal)..];
        IEnumerable<string> cells = table.Split('\n').SkipWhile(l => !l.StartsWith("| ---", StringComparison.Ordinal)).Skip(1)
            .TakeWhile(l => l.StartsWith('|')).SelectMany(l => l.Trim('|').Split('|').Skip(1)).Where(c => c.Any(char.IsDigit));
        Assert.All(cells.Where(c => !c.Contains(" nF", StringComparison.Ordinal)), cell => Assert.Contains("<!--", cell, StringComparison.Ordinal));
    }

    [Fact]
    public void TheSunTableIsWhatTheSumsGive()
    {
        string page = Repository.Text("hardware", "power.md");
        int from = page.IndexOf("<!-- sun -->\n", StringComparison.Ordinal) + "<!-- sun -->\n".Length;
        int to = page.IndexOf("<!-- end of sun -->", StringComparison.Ordinal);
        string head = "| latitude | " + string.Join(" | ", Latitudes.Select(l => $"{l}°")) + " |\n| --- | --- | --- | --- | --- |\n";
        IEnumerable<string> rows = Enumerable.Range(1, 12).Select(month => "| " + Months[month - 1] + " | "
            + string.Join(" | ", Latitudes.Select(l => PageFigures.PanelW(l, month).ToString("0.0", CultureInfo.InvariantCulture) + " W")) + " |\n");
        Repository.HoldTo(page[..from] + head + string.Concat(rows) + page[to..], "hardware", "power.md");
    }

    [GeneratedRegex("<!--([a-z0-9.-]+)-->")]
    private static partial Regex Name();
}
