using System.Text.RegularExpressions;

namespace Clackbeat.Words.Tests;

/// <summary>No sentence that a keeper or an engineer reads stands in C#: these tests search the source for them.</summary>
public sealed partial class EnglishInCodeTests
{
    // Files that hold English, and why. A file that holds none any more leaves the list.
    private static readonly Dictionary<string, string> Allowed = new(StringComparer.Ordinal)
    {
        ["CalibrationText.cs"] = "comments of a file that the program writes",
        ["SiteDraft.cs"] = "comments of a file that the program writes",
        ["CaptureBook.cs"] = "details of losses, kept in a recording for an engineer",
        ["Recorder.cs"] = "details of losses, kept in a recording for an engineer",
        ["RecordingDesk.cs"] = "details of losses, kept in a recording for an engineer",
        ["BurstLibrary.cs"] = "details of losses, kept in a recording for an engineer",
        ["BurstWriter.cs"] = "the journal of a store, which many read",
        ["SharedWriter.cs"] = "the text beside a shared record, which goes round the world",
        ["VirtualYear.cs"] = "what happens to a ram that exists only in the computer",
        ["SteelFatigue.cs"] = "titles of published sources",
        ["RatedPressure.cs"] = "titles of published sources",
        ["ReportFeature.cs"] = "a browser's security policy",
        ["TwinFeature.cs"] = "a browser's security policy",
        ["ParquetExport.cs"] = "descriptions of columns in a file for programs",
        ["ParquetColumns.cs"] = "descriptions of columns in a file for programs",
    };

    // As many mistakes still say their English sentence in every language. The number only falls.
    private const int PlainMistakes = 0;

    // "8 m to 30 m" has none.
    private const int LeastLongWords = 3;

    [Fact]
    public void No_file_holds_a_sentence_but_those_with_a_reason()
    {
        var holding = Sentences().Select(s => s.File).ToHashSet();
        Assert.Empty(Sentences().Where(s => !Allowed.ContainsKey(s.File)).Select(s => $"{s.File}: {s.Text}"));
        Assert.Empty(Allowed.Keys.Except(holding));
    }

    [Fact]
    public void Mistakes_that_are_told_in_English_only_become_fewer() =>
        Assert.Equal(PlainMistakes, Source().Sum(file => Plain().Count(file.Text)));

    [Theory]
    [InlineData("session.Say(\"The logger is on none of the ports.\");", true)]
    [InlineData("yield return $\"Section {joint + 1} is narrower than section {joint + 2}.\";", true)]
    [InlineData("throw new InputException(\"Give a rate between these two.\");", true)]
    [InlineData("throw new ArgumentException(\"The points are not in order of time.\");", false)]
    [InlineData("var folder = new Option<string>(\"--out\") { Description = \"Folder to take the bursts over to\" };", false)]
    [InlineData("// He said \"the ram has lost its air\" there.", false)]
    [InlineData("Phrases.Say(\"logging.no-alert\")", false)]
    public void The_search_notices_what_it_is_for(string code, bool isSentence) =>
        Assert.Equal(isSentence, Sentences(code).Any());

    private static IEnumerable<(string File, string Text)> Sentences() =>
        Source().SelectMany(file => Sentences(file.Text).Select(text => (file.Name, text)));

    // Help and examples of commands are told in English; other exceptions are for programmers.
    private static IEnumerable<string> Sentences(string source)
    {
        string code = Comment().Replace(source, comment => new string(' ', comment.Length));
        string bare = Literal().Replace(code, literal => new string(' ', literal.Length));
        foreach (Match literal in Literal().Matches(code))
        {
            string words = Place().Replace(literal.Value, " x ");
            if (!Words().IsMatch(words) || LongWord().Count(words) < LeastLongWords || Sql().IsMatch(literal.Value))
            {
                continue;
            }

            int statement = bare.LastIndexOfAny([';', '}'], Math.Max(0, literal.Index - 1)) + 1;
            if (!ForOthers().IsMatch(code[statement..literal.Index]))
            {
                yield return literal.Value;
            }
        }
    }

    private static IEnumerable<(string Name, string Text)> Source() => Directory
        .EnumerateFiles(Path.Combine(Root(), "host"), "*.cs", SearchOption.AllDirectories)
        .Where(file => !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal)
            && !file.Contains("VirtualLogger", StringComparison.Ordinal))
        .Select(file => (Path.GetFileName(file), File.ReadAllText(file)));

    private static string Root()
    {
        string? folder = AppContext.BaseDirectory;
        while (folder is not null && !File.Exists(Path.Combine(folder, "Clackbeat.slnx")))
        {
            folder = Path.GetDirectoryName(folder);
        }

        return folder ?? throw new InvalidOperationException("The tests run outside the repository.");
    }

    [GeneratedRegex(@"^[ \t]*//.*$", RegexOptions.Multiline)]
    private static partial Regex Comment();

    [GeneratedRegex(@"(?<!['\\])\$?""(?:[^""\\\n]|\\.)*""")]
    private static partial Regex Literal();

    [GeneratedRegex(@"\{[^}]*\}")]
    private static partial Regex Place();

    // Four words in a row.
    [GeneratedRegex(@"[A-Za-z][A-Za-z']*(?:[,;:]? (?:[a-z']+|x|\d+)){3,}")]
    private static partial Regex Words();

    [GeneratedRegex(@"[A-Za-z']{3,}")]
    private static partial Regex LongWord();

    [GeneratedRegex(@"^\$?""(?:SELECT|INSERT|UPDATE|DELETE|CREATE|PRAGMA|[a-z]\.\w+ = @)")]
    private static partial Regex Sql();

    [GeneratedRegex(@"Description =|Command\(|\(\s*""--|\(WishFields\.|Example|GeneratedRegex|(?<!Input)(?<!Line)(?<!Delivery)Exception\(")]
    private static partial Regex ForOthers();

    [GeneratedRegex(@"new InputException\(\s*\$?""")]
    private static partial Regex Plain();
}
