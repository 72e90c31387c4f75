using System.Diagnostics.CodeAnalysis;
using Clackbeat.Site.Facts;

namespace Clackbeat.Site.Quantities;

/// <summary>
/// Reads quantities as people write them ("2.5 m", "36 psi", "12 ft 6 in") into SI. Texts are read in one culture: a
/// decimal point, no thousands separators.
/// </summary>
public static class QuantityText
{
    /// <summary>Reads one quantity.</summary>
    /// <param name="kind">What is expected.</param>
    /// <param name="text">The text, a number and its unit.</param>
    /// <returns>The value in the SI unit of <paramref name="kind"/>.</returns>
    /// <exception cref="InputException">The text is no quantity of that kind; the message says what to write.</exception>
    public static double Parse(QuantityKind kind, string text) =>
        TryParse(kind, text, out double value, out Fact? problem) ? value : throw new InputException(problem);

    /// <summary>Reads one quantity without an exception for a text that is none.</summary>
    /// <param name="kind">What is expected.</param>
    /// <param name="text">The text, a number and its unit.</param>
    /// <param name="value">The value in the SI unit of <paramref name="kind"/>; 0 when there is none.</param>
    /// <param name="problem">What is wrong and what to write; null when nothing is.</param>
    public static bool TryParse(QuantityKind kind, string text, out double value, [NotNullWhen(false)] out Fact? problem)
    {
        QuantityGrammar.Reading read = QuantityGrammar.Read(UnitTable.Of(kind), text);
        value = read.Value;
        problem = read.Problem;
        return problem is null;
    }

    /// <summary>Reads a range such as "0 kPa to 1000 kPa", "0 to 150 psi" or "0–10 bar".</summary>
    /// <param name="kind">What is expected at both ends.</param>
    /// <param name="text">Two quantities; the first may leave its unit to the second.</param>
    /// <param name="low">Lower end in SI; 0 when there is none.</param>
    /// <param name="high">Upper end in SI; 0 when there is none.</param>
    /// <param name="problem">What is wrong and what to write; null when nothing is.</param>
    public static bool TryParseRange(QuantityKind kind, string text, out double low, out double high, [NotNullWhen(false)] out Fact? problem)
    {
        (low, high, problem) = QuantityGrammar.ReadRange(UnitTable.Of(kind), text);
        return problem is null;
    }

    /// <summary>Whether a word spells a unit of a kind.</summary>
    public static bool IsUnit(QuantityKind kind, string unit) =>
        UnitTable.Of(kind).TryFind(QuantityGrammar.Compact(unit)) is not null;

    /// <summary>The unit of a column of figures, such as "kPa" or "ft" of water.</summary>
    /// <param name="kind">What the column holds.</param>
    /// <param name="unit">The unit alone.</param>
    /// <exception cref="InputException">No unit of that kind is spelt so.</exception>
    public static LinearUnit Unit(QuantityKind kind, string unit)
    {
        var table = UnitTable.Of(kind);
        Enum found = table.TryFind(QuantityGrammar.Compact(unit))
            ?? throw new InputException(QuantityGrammar.UnknownUnit(table, unit));
        double zero = table.ToSi(0, found);
        return new LinearUnit(table.ToSi(1, found) - zero, zero);
    }
}
