using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;

namespace Clackbeat.Hydraulics.Rating;

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
    /// <summary>A sentence from an interpolated string.</summary>
    /// <param name="text">Words, numbers and pressures.</param>
    public static Sentence Of(SentenceHandler text) => new(text.Parts);

    /// <summary>A sentence of words alone.</summary>
    /// <param name="words">The words.</param>
    public static implicit operator Sentence(string words) => new([new SentencePart(words)]);

    /// <summary>The sentence with its pressures written by somebody.</summary>
    /// <param name="pressure">Writes one pressure.</param>
    public string Write(Func<SaidPressure, string> pressure)
    {
        var text = new StringBuilder();
        foreach (var part in Parts)
        {
            text.Append(part.Words ?? pressure(part.Pressure));
        }

        return text.ToString();
    }

    /// <summary>Every pressure in bar and psi.</summary>
    public override string ToString() => Write(p => Say.Pressure(p));
}

/// <summary>Collects an interpolated string into the pieces of a sentence.</summary>
/// <param name="literalLength">Letters of the fixed words.</param>
/// <param name="formattedCount">Things filled in.</param>
[InterpolatedStringHandler]
public readonly ref struct SentenceHandler(int literalLength, int formattedCount)
{
    private readonly List<SentencePart> parts = new(2 * formattedCount + Math.Sign(literalLength));

    /// <summary>The pieces so far.</summary>
    public IReadOnlyList<SentencePart> Parts => parts;

    /// <summary>Adds fixed words.</summary>
    /// <param name="words">The words.</param>
    public void AppendLiteral(string words) => parts.Add(new SentencePart(words));

    /// <summary>Adds words.</summary>
    /// <param name="words">The words.</param>
    public void AppendFormatted(string words) => parts.Add(new SentencePart(words));

    /// <summary>Adds a number.</summary>
    /// <param name="number">The number.</param>
    /// <param name="format">How it is written.</param>
    public void AppendFormatted(double? number, string format) =>
        parts.Add(new SentencePart(number?.ToString(format, CultureInfo.InvariantCulture) ?? ""));

    /// <summary>Adds a pressure.</summary>
    /// <param name="pressure">The pressure.</param>
    public void AppendFormatted(SaidPressure pressure) => parts.Add(new SentencePart(null, pressure));
}
