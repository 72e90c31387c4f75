using System.Globalization;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Planning.Wishes;

/// <summary>Reads the fields of a wish one by one.</summary>
/// <param name="written">What was written in a field; nothing where it was left empty.</param>
internal sealed class FieldReader(Func<string, IReadOnlyList<string>> written)
{
    internal static WishException Slip(string field, Fact problem) => new(field, problem);

    /// <summary>What was written in a field, where anything was.</summary>
    internal string? Text(string field) => written(field) is [{ } text, ..] && text.Trim().Length > 0 ? text : null;

    internal double? Quantity(string field, QuantityKind kind)
    {
        if (Text(field) is not { } text)
        {
            return null;
        }

        return QuantityText.TryParse(kind, text, out double value, out Fact? problem)
            ? value
            : throw Slip(field, Fact.Of("plan-slip-said", ("what", problem)));
    }

    internal double Required(string field, QuantityKind kind) => Quantity(field, kind) ?? throw Slip(field, Fact.Of("plan-slip-missing"));

    internal double? Flow(string field) => Quantity(field, QuantityKind.Flow) is { } flow
        ? flow >= 0 ? flow : throw Slip(field, Fact.Of("plan-slip-negative-flow"))
        : null;

    internal double? Length(string field) => Quantity(field, QuantityKind.Length) is { } length
        ? length > 0 ? length : throw Slip(field, Fact.Of("plan-slip-length"))
        : null;

    /// <summary>Names with numbers, as <c>person=24</c>.</summary>
    internal IEnumerable<(string Name, double Number)> Pairs(string field, IReadOnlyList<string> known)
    {
        foreach (string text in written(field).Where(t => t.Trim().Length > 0))
        {
            string[] parts = text.Split('=', 2, StringSplitOptions.TrimEntries);
            if (parts.Length < 2 || !known.Contains(parts[0]))
            {
                throw Slip(field, Spelling.Nearest(parts[0], known) is { } near
                    ? Fact.Of("plan-slip-pair-near", ("text", text), ("near", near), ("known", string.Join(", ", known)))
                    : Fact.Of("plan-slip-pair", ("text", text), ("example", known[0]), ("known", string.Join(", ", known))));
            }

            yield return (parts[0], Number(field, parts[1], 0, 1e9));
        }
    }

    /// <summary>Twelve values with commas between them.</summary>
    internal static double[] Twelve(string field, string text, QuantityKind kind)
    {
        string[] entries = text.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        if (entries.Length != 12)
        {
            throw Slip(field, Fact.Of("plan-slip-twelve", ("count", entries.Length)));
        }

        // The unit may stand once, behind the last value.
        string unit = new([.. entries[^1].SkipWhile(c => char.IsDigit(c) || c is '.' or ' ')]);
        return [.. entries.Select(e => One(e.Any(char.IsLetter) ? e : $"{e} {unit}"))];

        double One(string entry) => QuantityText.TryParse(kind, entry, out double value, out Fact? problem)
            ? value >= 0 ? value : throw Slip(field, Fact.Of("plan-slip-negative-flow"))
            : throw Slip(field, Fact.Of("plan-slip-said", ("what", problem)));
    }

    internal static double[] OneOrTwelve(string field, string text, double low, double high)
    {
        double[] all = [.. text.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Select(t => Number(field, t, low, high))];
        return all.Length switch
        {
            1 => [.. Enumerable.Repeat(all[0], 12)],
            12 => all,
            _ => throw Slip(field, Fact.Of("plan-slip-one-or-twelve", ("count", all.Length))),
        };
    }

    internal static double Number(string field, string text, double low, double high) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && number >= low && number <= high
            ? number
            : throw Slip(field, Fact.Of("plan-slip-number", ("text", text), ("low", low), ("high", high)));
}
