using System.Diagnostics.CodeAnalysis;
using System.Runtime.CompilerServices;
using System.Text;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Report.Wording;

/// <summary>A piece of a sentence: plain words, or a quantity that reads differently in metric and US units.</summary>
internal readonly record struct Run(string? Words, Measure? Quantity);

/// <summary>A sentence with quantities in it. Every writer decides itself how to encode words and show quantities.</summary>
internal sealed record Rich(IReadOnlyList<Run> Runs)
{
    /// <summary>No words at all.</summary>
    public static readonly Rich Empty = new([]);

    /// <summary>Makes a sentence from an interpolated string.</summary>
    public static Rich Of(RichHandler text) => new(text.Runs);

    /// <summary>A phrase of the catalogue with its values.</summary>
    /// <param name="key">Table and key.</param>
    /// <param name="values">Names and values.</param>
    public static Rich Say(string key, params IReadOnlyList<RichValue> values) => new(
    [
        .. Catalogue.Current.Cut(key, [.. values.Select(v => v.Plain).OfType<FactValue>()]).SelectMany(piece => piece.Words is { } words
            ? [new Run(words, null)]
            : values.FirstOrDefault(v => v.Name == piece.Place).Text?.Runs ?? [new Run($"({piece.Place})", null)]),
    ]);

    /// <summary>Makes a sentence from plain words.</summary>
    [return: NotNullIfNotNull(nameof(words))]
    public static implicit operator Rich?(string? words) => words is null ? null : new([new Run(words, null)]);

    /// <summary>Makes a sentence from one quantity.</summary>
    public static implicit operator Rich(Measure quantity) => new([new Run(null, quantity)]);

    /// <summary>This and the next sentence, a space between them.</summary>
    public Rich Then(Rich? next) => next is null || next.Runs.Count == 0
        ? this
        : Runs.Count == 0 ? next : new Rich([.. Runs, new Run(" ", null), .. next.Runs]);

    /// <summary>Both unit systems in one line, the reader's own first.</summary>
    public string In(Units first)
    {
        var text = new StringBuilder();
        foreach (Run run in Runs)
        {
            text.Append(run.Words ?? run.Quantity?.In(first));
        }

        return text.ToString();
    }

    /// <summary>The same for a metric reader.</summary>
    public override string ToString() => In(Units.Metric);
}

/// <summary>Collects an interpolated string into runs, so that quantities keep both their texts.</summary>
[InterpolatedStringHandler]
internal readonly ref struct RichHandler(int literalLength, int formattedCount)
{
    private readonly List<Run> _runs = new(formattedCount * 2 + Math.Sign(literalLength));

    public IReadOnlyList<Run> Runs => _runs;

    public void AppendLiteral(string words) => _runs.Add(new Run(words, null));

    public void AppendFormatted(string words) => _runs.Add(new Run(words, null));

    public void AppendFormatted(long count) => _runs.Add(new Run(Digits.Count(count), null));

    public void AppendFormatted(Measure quantity) => _runs.Add(new Run(null, quantity));

    public void AppendFormatted(Rich text) => _runs.AddRange(text.Runs);
}
