using System.Text;
using Clackbeat.Site.Facts;
using Clackbeat.Words;

namespace Clackbeat.Report.Wording;

/// <summary>A pressure inside a sentence, for the reader of the sentence to write in their own unit.</summary>
/// <param name="Pa">Gauge pressure [Pa].</param>
/// <param name="UncertaintyPa">Expanded uncertainty, k = 2 [Pa]; null when the sentence gives none.</param>
public readonly record struct SaidPressure(double Pa, double? UncertaintyPa = null);

/// <summary>A piece of a sentence: words, or a pressure.</summary>
/// <param name="Words">The words; null for a pressure.</param>
/// <param name="Pressure">The pressure.</param>
public readonly record struct SentencePart(string? Words, SaidPressure Pressure = default);

/// <summary>
/// A sentence whose pressures are still numbers, so that a page in bar and a page in psi can say the same thing.
/// </summary>
/// <param name="Parts">Its pieces in order.</param>
public sealed record Sentence(IReadOnlyList<SentencePart> Parts)
{
    /// <summary>A phrase of the catalogue with its values.</summary>
    /// <param name="key">Table and key.</param>
    /// <param name="values">Names and values.</param>
    public static Sentence Say(string key, params IReadOnlyList<SentenceValue> values) => new(
    [
        .. Catalogue.Current.Cut(key, [.. values.Select(v => v.Plain).OfType<FactValue>()]).Select(piece => piece.Words is { } words
            ? new SentencePart(words)
            : new SentencePart(null, values.First(v => v.Name == piece.Place).Pressure)),
    ]);

    /// <summary>A sentence of words alone.</summary>
    /// <param name="words">The words.</param>
    public static implicit operator Sentence(string words) => new([new SentencePart(words)]);

    /// <summary>The sentence with its pressures written by somebody.</summary>
    /// <param name="pressure">Writes one pressure.</param>
    public string Write(Func<SaidPressure, string> pressure)
    {
        var text = new StringBuilder();
        foreach (SentencePart part in Parts)
        {
            text.Append(part.Words ?? pressure(part.Pressure));
        }

        return text.ToString();
    }

    /// <summary>Every pressure in bar and psi.</summary>
    public override string ToString() => Write(Written.Pressure);
}
