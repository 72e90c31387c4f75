using System.Text.RegularExpressions;
using Clackbeat.Words;

namespace Clackbeat.VirtualRam.Tests.Advice;

/// <summary>Every text of the product that may tell a keeper to change the waste valve.</summary>
internal static partial class AdviceTexts
{
    private static readonly string Root = FindRoot(AppContext.BaseDirectory);

    internal static IEnumerable<AdviceSentence> Sentences => Phrases().Concat(Pages()).Concat(Sources());

    // The sentences of these are taken apart by AdviceSentence; French and Portuguese aren't yet.
    private static readonly string[] TakenApart = ["en", "es"];

    /// <summary>The page's advice on a condition, in each of the languages that are taken apart.</summary>
    internal static IEnumerable<(string Language, string Text)> PageAdvice(string condition) => Catalogue.All
        .Where(c => TakenApart.Contains(c.Language.Code) && c.Phrases.ContainsKey("page.check." + condition))
        .Select(c => (c.Language.Code, c.Phrases["page.check." + condition].ToString()));

    internal static string FieldGuide => File.ReadAllText(Path.Combine(Root, "docs/field-guide.md"));

    private static IEnumerable<AdviceSentence> Phrases() => Catalogue.All.SelectMany(
        c => c.Phrases.SelectMany(p => AdviceSentence.In($"{c.Language.Code}.toml, {p.Key}", p.Value.ToString())));

    private static IEnumerable<AdviceSentence> Pages() =>
        new[] { "docs", "hardware" }.SelectMany(folder => Directory.EnumerateFiles(Path.Combine(Root, folder), "*.md", SearchOption.AllDirectories))
            .Append(Path.Combine(Root, "README.md"))
            .SelectMany(file => AdviceSentence.In(Path.GetRelativePath(Root, file), File.ReadAllText(file).Replace('\n', ' ')));

    // Advice that still stands in the code: the strings of the files that speak to a keeper, pieces of one sentence joined again.
    private static IEnumerable<AdviceSentence> Sources() =>
        from folder in new[] { "Clackbeat", "Clackbeat.Report", "Clackbeat.Season", "Clackbeat.Signal", "Clackbeat.VirtualRam", "Clackbeat.Tuning", "Clackbeat.Hydraulics" }
        from file in Directory.EnumerateFiles(Path.Combine(Root, "host", folder), "*.cs", SearchOption.AllDirectories)
        where !file.Contains("/obj/", StringComparison.Ordinal) && !file.Contains("/bin/", StringComparison.Ordinal)
        let code = Comment().Replace(File.ReadAllText(file), "")
        from said in Literal().Matches(Joined().Replace(code, ""))
        from sentence in AdviceSentence.In(Path.GetRelativePath(Root, file), said.Groups[1].Value)
        select sentence;

    private static string FindRoot(string folder) => File.Exists(Path.Combine(folder, "Clackbeat.slnx"))
        ? folder
        : FindRoot(Path.GetDirectoryName(folder)!);

    [GeneratedRegex(@"^\s*//.*$", RegexOptions.Multiline)]
    private static partial Regex Comment();

    [GeneratedRegex(@"""\s*\+\s*\$?""")]
    private static partial Regex Joined();

    [GeneratedRegex(@"""((?:[^""\\\n]|\\.)*)""")]
    private static partial Regex Literal();
}
