using System.Text.RegularExpressions;

namespace Clackbeat.Words.Tests;

/// <summary>Facts and their sentences stand in different files; these tests read the source to see that they belong together.</summary>
public sealed partial class SourceTests
{
    // Tables whose keys are made from names elsewhere; other tests compare them.
    private static readonly string[] Composed = ["facts.", "conditions.", "advice.", "features.", "page.", "dates.", "materials.", "plan.", "plan-page.", "tests.", "kinds.", "exits.", "guide-see.", "guide-look.", "guide-then.", "causes.", "slow.", "twin.", "upkeep-task.", "upkeep-done."];

    private static readonly ILookup<string, string[]> Made = Read();

    private static readonly HashSet<string> Facts = [.. Catalogue.English.Phrases.Keys.Where(k => k.StartsWith("facts.", StringComparison.Ordinal)).Select(k => k["facts.".Length..])];

    [Fact]
    public void Every_fact_that_is_made_has_a_phrase_and_every_phrase_a_fact()
    {
        HashSet<string> used = [.. Made.Select(m => m.Key), .. Said()];
        Assert.Empty(Made.Select(m => m.Key).Where(code => !code.Contains('.', StringComparison.Ordinal)).Except(Facts));
        Assert.Empty(Made.Select(m => m.Key).Where(code => code.Contains('.', StringComparison.Ordinal)).Except(Catalogue.English.Phrases.Keys));
        Assert.Empty(Facts.Except(used));
        Assert.Empty(Catalogue.English.Phrases.Keys.Where(k => !Composed.Any(table => k.StartsWith(table, StringComparison.Ordinal))).Except(used).Except(Named()));
    }

    [Fact]
    public void A_phrase_has_a_place_for_every_value_of_its_fact_and_no_other() => Assert.All(Catalogue.All, catalogue =>
    {
        var wrong = new List<string>();
        foreach ((string Code, string[] Values) made in Made.SelectMany(m => m.Select(values => (Code: m.Key, Values: values))))
        {
            if (catalogue.Phrases.TryGetValue(made.Code.Contains('.', StringComparison.Ordinal) ? made.Code : "facts." + made.Code, out Phrase? phrase)
                && !made.Values.ToHashSet().SetEquals(phrase.Places))
            {
                wrong.Add($"{made.Code}: {string.Join(' ', made.Values)} against {phrase}");
            }
        }

        Assert.Empty(wrong);
    });

    [Fact]
    public void No_code_looks_into_a_sentence()
    {
        // A literal with a blank between two letters, or a ±, is a piece of a sentence; so is what the catalogue has said.
        Assert.Empty(Source("*.cs").SelectMany(file => Looks().Matches(file.Text).Select(look => $"{file.Name}: {look.Value}")));
    }

    /// <summary>Whatever a keeper reads on the screen follows the language; English stays where other programs read.</summary>
    [Fact]
    public void No_command_speaks_English_to_every_reader() => Assert.Equal(
        ["PortsCommand.cs", "ShareCommand.cs", "Speech.cs"],
        Directory.EnumerateFiles(Path.Combine(Root(), "host", "Clackbeat"), "*.cs", SearchOption.AllDirectories)
            .Where(file => !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal)
                && !file.EndsWith("Json.cs", StringComparison.Ordinal)
                && File.ReadAllText(file).Contains("Catalogue.English", StringComparison.Ordinal))
            .Select(Path.GetFileName).Order(StringComparer.Ordinal));

    [Fact]
    public void No_code_of_the_page_asks_which_language_it_is() =>
        Assert.Empty(Source("*.js").SelectMany(file => AsksLanguage().Matches(file.Text).Select(ask => $"{file.Name}: {ask.Value}")));

    [Theory]
    [InlineData("if (text.StartsWith(\"Flow is withheld\", StringComparison.Ordinal))")]
    [InlineData("int at = text.IndexOf(\" ± \");")]
    [InlineData("Catalogue.English.Say(fact).Contains(\"bucket\")")]
    [InlineData("finding.Advice.Split(\"Shut the gate\")")]
    public void The_search_notices_what_it_is_for(string code) => Assert.Matches(Looks(), code);

    [Theory]
    [InlineData("prefs.language === \"en\" ? a : b")]
    [InlineData("if (prefs.language !== 'es')")]
    [InlineData("prefs.language == \"es\"")]
    public void The_search_of_the_page_notices_what_it_is_for(string code) => Assert.Matches(AsksLanguage(), code);

    /// <summary>Codes and names of values at each place where the program makes a fact; they are written out there.</summary>
    private static ILookup<string, string[]> Read() => Source("*.cs").SelectMany(file => Calls(file.Text))
        .ToLookup(call => call.Code, call => call.Values, StringComparer.Ordinal);

    // What is said at once, without a fact, by its code.
    private static IEnumerable<string> Said() => Source("*.cs").SelectMany(file => Say().Matches(file.Text)).Select(m => m.Groups[1].Value);

    // A key that stands alone as a value, for a phrase that is said later.
    private static IEnumerable<string> Named() => Source("*.cs").SelectMany(file => Key().Matches(file.Text)).Select(m => m.Groups[1].Value);

    private static IEnumerable<(string Name, string Text)> Source(string pattern) => Directory
        .EnumerateFiles(Path.Combine(Root(), "host"), pattern, SearchOption.AllDirectories)
        .Where(file => !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal) && !file.EndsWith(".min.js", StringComparison.Ordinal))
        .Select(file => (Path.GetFileName(file), File.ReadAllText(file)));

    private static IEnumerable<(string Code, string[] Values)> Calls(string source)
    {
        foreach (Match call in Call().Matches(source))
        {
            string[] names = [.. Names(source, call.Index + call.Value.IndexOf('(', StringComparison.Ordinal))];
            yield return (call.Groups[1].Value, names.Length > 0 || source[call.Index + call.Length] == ')' ? names : NamesNear(source, call.Index));
        }
    }

    // Where two calls share their values, these stand in a list just before; the statement begins after the last blank line.
    private static string[] NamesNear(string source, int at)
    {
        int end = source.IndexOf("\n\n", at, StringComparison.Ordinal);
        int start = source.LastIndexOf("\n\n", at, StringComparison.Ordinal);
        return [.. Name().Matches(source[Math.Max(0, start)..(end < 0 ? source.Length : end)]).Select(m => m.Groups[1].Value)];
    }

    // The values within the call's own brackets: facts within it have their names on a deeper level.
    private static IEnumerable<string> Names(string source, int open)
    {
        int depth = 0;
        for (int at = open; at < source.Length; at++)
        {
            depth += source[at] is '(' or '[' or '{' ? 1 : source[at] is ')' or ']' or '}' ? -1 : 0;
            if (depth == 0)
            {
                yield break;
            }

            if (source[at] == '(' && depth == 2 && Name().Match(source, at) is { Success: true } name && name.Index == at)
            {
                yield return name.Groups[1].Value;
            }
            else if (depth == 1 && LikelihoodList().Match(source, at) is { Success: true } list && list.Index == at)
            {
                yield return list.Groups[1].Value;
            }
        }
    }

    private static string Root()
    {
        string? folder = AppContext.BaseDirectory;
        while (folder is not null && !File.Exists(Path.Combine(folder, "Clackbeat.slnx")))
        {
            folder = Path.GetDirectoryName(folder);
        }

        return folder ?? throw new InvalidOperationException("The tests run outside the repository.");
    }

    [GeneratedRegex(@"(?:Fact\.Of|InputException\.Of|\bSay)\(\s*(?:\w+,\s*)?""([A-Za-z0-9.-]+)""")]
    private static partial Regex Call();

    [GeneratedRegex(@"\.?Say\(\s*""([A-Za-z0-9.-]+)""")]
    private static partial Regex Say();

    [GeneratedRegex(@"""([a-z]+(?:-[a-z]+)*\.[a-z0-9-]+)""")]
    private static partial Regex Key();

    [GeneratedRegex(@"\(\s*""([a-z0-9_]+)"",")]
    private static partial Regex Name();

    [GeneratedRegex(@"FactValue\.Of\(\s*""([a-z0-9_]+)"",")]
    private static partial Regex LikelihoodList();

    [GeneratedRegex(@"\.(StartsWith|EndsWith|Contains|IndexOf|LastIndexOf|Split|Replace|IsMatch|Match)\(\s*@?\$?""([^""\n]*(?<=[A-Za-z]) (?=[A-Za-z])[^""\n]*|[^""\n]*±[^""\n]*)""|\.Say\([^;\n]*\)\.(StartsWith|EndsWith|Contains|IndexOf|LastIndexOf|Split|Replace)\(")]
    private static partial Regex Looks();

    [GeneratedRegex(@"language\s*[!=]==?\s*[""'`]")]
    private static partial Regex AsksLanguage();
}
