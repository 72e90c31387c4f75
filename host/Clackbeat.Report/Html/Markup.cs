using System.Runtime.CompilerServices;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Unicode;
using Clackbeat.Report.Wording;

namespace Clackbeat.Report.Html;

/// <summary>
/// A piece of HTML. Made only from interpolated strings: what stands in the program's text is markup, what is filled in
/// is encoded, so that no name a keeper chose can ever act as markup.
/// </summary>
public sealed class Markup
{
    private static readonly HtmlEncoder Encoder = HtmlEncoder.Create(UnicodeRanges.All);

    private Markup(string text) => Text = text;

    /// <summary>No markup.</summary>
    public static Markup Empty { get; } = new("");

    /// <summary>The markup as text.</summary>
    public string Text { get; }

    /// <summary>Makes markup from an interpolated string.</summary>
    /// <param name="handler">The string.</param>
    public static Markup Of(MarkupHandler handler) => new(handler.Build());

    /// <summary>Markup that the program itself drew or read from its own resources.</summary>
    /// <param name="markup">The markup.</param>
    public static Markup Trusted(string markup) => new(markup);

    /// <summary>Encodes words. Control characters have no place in a page and become spaces.</summary>
    /// <param name="words">The words.</param>
    public static string Encode(string words)
    {
        if (words.AsSpan().ContainsAnyInRange('\0', '\u001F'))
        {
            words = string.Concat(words.Select(c => char.IsControl(c) ? ' ' : c));
        }

        return Encoder.Encode(words);
    }

    /// <summary>A sentence, its quantities in both unit systems for the page to choose from.</summary>
    internal static Markup From(Rich text)
    {
        var html = new StringBuilder();
        foreach (Run run in text.Runs)
        {
            html.Append(run.Quantity is { } quantity ? From(quantity).Text : Encode(run.Words ?? ""));
        }

        return new Markup(html.ToString());
    }

    /// <summary>A quantity within a sentence.</summary>
    internal static Markup From(Measure quantity) => quantity.Metric == quantity.Us
        ? Of($"{quantity.Metric.ToString()}")
        : Of($"<span class=\"m\">{quantity.Metric.ToString()}</span><span class=\"us\">{quantity.Us.ToString()}</span>");

    /// <inheritdoc/>
    public override string ToString() => Text;
}

/// <summary>Joins literals as they are and everything filled in encoded.</summary>
[InterpolatedStringHandler]
public readonly ref struct MarkupHandler(int literalLength, int formattedCount)
{
    private readonly StringBuilder _text = new(literalLength + (formattedCount * 32));

    /// <summary>What stands in the program's text.</summary>
    public void AppendLiteral(string markup) => _text.Append(markup);

    /// <summary>Words, encoded.</summary>
    public void AppendFormatted(string words) => _text.Append(Markup.Encode(words));

    /// <summary>A sentence with quantities.</summary>
    internal void AppendFormatted(Rich words) => _text.Append(Markup.From(words).Text);

    /// <summary>Markup as it is.</summary>
    public void AppendFormatted(Markup markup) => _text.Append(markup.Text);

    /// <summary>Pieces, one after the other.</summary>
    public void AppendFormatted(IEnumerable<Markup> pieces)
    {
        foreach (Markup piece in pieces)
        {
            _text.Append(piece.Text);
        }
    }

    /// <summary>All of it.</summary>
    public string Build() => _text.ToString();
}
