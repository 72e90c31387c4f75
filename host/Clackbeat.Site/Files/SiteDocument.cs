using System.Text.RegularExpressions;
using Clackbeat.Site.Facts;
using Tomlyn;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace Clackbeat.Site.Files;

/// <summary>One key with its value, wherever TOML let it be written.</summary>
/// <param name="Path">Names from the root to the key.</param>
/// <param name="Block">Which block of a repeated table it stands in, from 0; -1 elsewhere.</param>
/// <param name="Value">The value.</param>
/// <param name="Line">Line, from 1.</param>
internal sealed record SiteEntry(IReadOnlyList<string> Path, int Block, ValueSyntax Value, int Line);

/// <summary>A TOML text as a flat list of keys with their lines; inline and dotted forms are unfolded.</summary>
internal sealed partial class SiteDocument
{
    // The deepest a site file goes is a table in a list. The parser refuses twice this depth itself, in words for
    // programmers.
    private const int DeepestNesting = 32;
    private const int LongestExplained = 400;

    /// <summary>Mistakes that are told at once; who has more begins with these.</summary>
    public const int MostProblems = 100;

    private readonly Dictionary<string, int> _blocks = new(StringComparer.Ordinal);

    private SiteDocument()
    {
    }

    /// <summary>The keys in the order of the file.</summary>
    public List<SiteEntry> Entries { get; } = [];

    /// <summary>Headers of tables and their lines.</summary>
    public List<(SiteTable Table, int Line)> Headers { get; } = [];

    /// <summary>Where the text breaks TOML's rules.</summary>
    public List<SiteProblem> Problems { get; } = [];

    /// <summary>Takes a text apart.</summary>
    public static SiteDocument Parse(string text)
    {
        var document = new SiteDocument();
        if (TooDeep(text) is { } deep)
        {
            document.Problems.Add(new SiteProblem(deep, Fact.Of("site.brackets")));
            return document;
        }

        text = CurlyQuotes.Straightened(text);
        try
        {
            document.Read(SyntaxParser.Parse(text), text);
        }
        catch (Exception broken) when (broken is TomlException or ArgumentException)
        {
            // Half a surrogate pair behind a backslash makes the library's lexer throw while it words its own error.
            document.Problems.Add(new SiteProblem((broken as TomlException)?.Line, Fact.Of("site.no-toml", ("why", broken.Message))));
        }

        return document;
    }

    // Counts brackets wherever they stand, in texts too: such a text has no place in a site file either.
    private static int? TooDeep(string text)
    {
        (int depth, int line) = (0, 1);
        foreach (char c in text)
        {
            line += c == '\n' ? 1 : 0;
            depth += c is '[' or '{' ? 1 : c is ']' or '}' ? -1 : 0;
            depth = Math.Max(depth, 0);
            if (depth > DeepestNesting)
            {
                return line;
            }
        }

        return null;
    }

    private void Read(DocumentSyntax syntax, string text)
    {
        if (syntax.HasErrors)
        {
            string[]? lines = text.Split('\n');
            if (FirstCause.Of(lines) is { } cause)
            {
                // All that the parser found besides follows from it.
                Problems.Add(cause);
                return;
            }

            Problems.AddRange(syntax.Diagnostics
                .DistinctBy(d => d.Span.Start.Line)
                .Take(MostProblems)
                .Select(d => Explain(d, lines))
                .DistinctBy(p => p.Line));
            return;
        }

        AddAll(syntax.KeyValues, [], -1);
        foreach (TableSyntaxBase table in syntax.Tables)
        {
            IReadOnlyList<string> path = Names(table.Name);
            string name = string.Join('.', path);
            bool repeated = table is TableArraySyntax;
            Headers.Add((new SiteTable(name, repeated, ""), LineOf(table)));
            AddAll(table.Items, path, repeated ? NextBlock(name) : -1);
        }
    }

    private int NextBlock(string table) => _blocks[table] = _blocks.TryGetValue(table, out int last) ? last + 1 : 0;

    private void AddAll(SyntaxList<KeyValueSyntax> items, IReadOnlyList<string> table, int block)
    {
        foreach (KeyValueSyntax item in items)
        {
            Add([.. table, .. Names(item.Key)], block, item.Value, LineOf(item));
        }
    }

    private void Add(IReadOnlyList<string> path, int block, ValueSyntax? value, int line)
    {
        switch (value)
        {
            case null:
                return;
            case InlineTableSyntax inline:
                foreach (InlineTableItemSyntax item in inline.Items)
                {
                    Add([.. path, .. Names(item.KeyValue?.Key)], block, item.KeyValue?.Value, line);
                }

                return;
            case ArraySyntax array when array.Items.Any(i => i.Value is InlineTableSyntax):
                foreach (ArrayItemSyntax item in array.Items)
                {
                    Add(path, NextBlock(string.Join('.', path)), item.Value, item.Value is null ? line : LineOf(item.Value));
                }

                return;
            default:
                Entries.Add(new SiteEntry(path, block, value, line));
                return;
        }
    }

    private static IReadOnlyList<string> Names(KeySyntax? key) =>
        key is null ? [] : [NameOf(key.Key), .. key.DotKeys.Select(d => NameOf(d.Key))];

    private static string NameOf(BareKeyOrStringValueSyntax? name) => name switch
    {
        BareKeySyntax bare => bare.Key?.Text ?? "",
        StringValueSyntax quoted => quoted.Value ?? "",
        _ => "",
    };

    private static int LineOf(SyntaxNode node) => node.Span.Start.Line + 1;

    private static SiteProblem Explain(DiagnosticMessage diagnostic, string[] lines)
    {
        int line = Math.Clamp(diagnostic.Span.Start.Line + 1, 1, lines.Length);
        string? written = lines[line - 1];
        if (Defined().Match(diagnostic.Message) is { Success: true } twice)
        {
            return new SiteProblem(line, Fact.Of("site.key-twice", ("key", twice.Groups["key"].Value), ("line", twice.Groups["line"].Value)));
        }

        Match bare = BareText().Match(written.Length <= LongestExplained ? written : "");
        return new SiteProblem(line, bare.Success
            ? Fact.Of("site.unquoted", ("example", $"{bare.Groups["key"].Value} = \"{bare.Groups["value"].Value}\"."))
            : Fact.Of("site.unreadable", ("why", diagnostic.Message.ReplaceLineEndings(" "))));
    }

    // The parser's message goes on with the whole text of the earlier one.
    [GeneratedRegex(@"^The key `(?<key>[^`]+)` is already defined at \((?<line>\d+),", RegexOptions.ExplicitCapture)]
    private static partial Regex Defined();

    [GeneratedRegex("""^\s*(?<key>[\w.-]+)\s*=\s*(?<value>[^\s"'\[{#][^"'#]*?)\s*(#.*)?$""", RegexOptions.ExplicitCapture)]
    private static partial Regex BareText();
}
