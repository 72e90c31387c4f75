using System.Globalization;
using System.Text.RegularExpressions;
using Clackbeat.Site.Facts;

namespace Clackbeat.Site.Quantities;

/// <summary>The writing rules of quantities, and the words for each way of breaking them.</summary>
internal static partial class QuantityGrammar
{
    private const int LongestRead = 120;
    private const int LongestShown = 40;
    private const double LargestFigure = 1e30;

    private static readonly (string Sign, string Fraction)[] Fractions =
    [
        ("½", "1/2"), ("⅓", "1/3"), ("⅔", "2/3"), ("¼", "1/4"), ("¾", "3/4"), ("⅛", "1/8"), ("⅜", "3/8"), ("⅝", "5/8"), ("⅞", "7/8"),
    ];

    /// <summary>A value, or what is wrong with the text.</summary>
    internal readonly record struct Reading(double Value, Fact? Problem);

    /// <summary>Reads "2.5 m", "1 1/2 in" or, for lengths, "12 ft 6 in".</summary>
    public static Reading Read(UnitTable table, string text)
    {
        if (text.Length > LongestRead)
        {
            return new Reading(0, Fact.Of("quantity.too-long", ("text", Quoted(text))));
        }

        string? tidy = Tidy(text);
        if (Compound().Match(tidy) is { Success: true } feet && table == UnitTable.Of(QuantityKind.Length))
        {
            return ReadFeetAndInches(table, feet);
        }

        Match parts = Simple().Match(tidy);
        if (!parts.Success)
        {
            return new Reading(0, NotANumber(table, tidy, text));
        }

        string? unit = parts.Groups["unit"].Value;
        if (unit.Length == 0)
        {
            return new Reading(0, Fact.Of("quantity.no-unit", ("text", Quoted(text)), ("kind", table.What), ("example", Example(table))));
        }

        if (table.TryFind(Compact(unit)) is not { } known)
        {
            return new Reading(0, UnknownUnit(table, unit));
        }

        double figure = Figure(parts);
        return Math.Abs(figure) <= LargestFigure
            ? new Reading(table.ToSi(figure, known), null)
            : new Reading(0, Fact.Of("quantity.beyond", ("text", Quoted(text))));
    }

    /// <summary>Reads two quantities with "to" or a dash between them.</summary>
    public static (double Low, double High, Fact? Problem) ReadRange(UnitTable table, string text)
    {
        string[]? ends = text.Length <= LongestRead ? RangeSeparator().Split(Tidy(text), 2) : [];
        if (ends.Length != 2)
        {
            return (0, 0, Fact.Of("quantity.no-range", ("text", Quoted(text)), ("example", RangeExample(table))));
        }

        Match upper = Simple().Match(ends[1]);
        string? first = Simple().Match(ends[0]) is { Success: true } lower && lower.Groups["unit"].Length == 0 && upper.Success
            ? $"{ends[0]} {upper.Groups["unit"].Value}"
            : ends[0];
        Reading low = Read(table, first);
        Reading high = Read(table, ends[1]);
        if ((low.Problem ?? high.Problem) is { } problem)
        {
            return (0, 0, problem);
        }

        return low.Value < high.Value
            ? (low.Value, high.Value, null)
            : (0, 0, Fact.Of("quantity.range-falls", ("text", Quoted(text)), ("example", RangeExample(table))));
    }

    /// <summary>What to say of a unit that isn't one of this kind.</summary>
    public static Fact UnknownUnit(UnitTable table, string unit)
    {
        string? spelt = Compact(unit);
        if (table == UnitTable.Of(QuantityKind.Pressure) && Absolute().IsMatch(spelt))
        {
            return Fact.Of("quantity.absolute", ("unit", Quoted(unit)), ("example", Example(table)));
        }

        if (UnitTable.Knowing(spelt).FirstOrDefault() is { } other)
        {
            return Fact.Of("quantity.other-kind", ("unit", Quoted(unit)), ("other", other.What), ("kind", table.What), ("example", Example(table)));
        }

        return Spelling.Nearest(spelt, table.Spellings) is { } near
            ? Fact.Of("quantity.unknown-unit-near", ("unit", Quoted(unit)), ("near", near), ("kind", table.What), ("example", Example(table)))
            : Fact.Of("quantity.unknown-unit", ("unit", Quoted(unit)), ("kind", table.What), ("example", Example(table)));
    }

    /// <summary>A unit without the ways of writing it that make no difference.</summary>
    public static string Compact(string unit) => Blanks().Replace(
        Tidy(unit).Replace(" per ", "/", StringComparison.OrdinalIgnoreCase), "")
        .Replace("³", "3", StringComparison.Ordinal)
        .Replace("²", "2", StringComparison.Ordinal)
        .Replace("^", "", StringComparison.Ordinal)
        .Replace("₂", "2", StringComparison.Ordinal);

    private static Reading ReadFeetAndInches(UnitTable table, Match parts)
    {
        Enum feet = table.TryFind(Compact(parts.Groups["feetUnit"].Value))!;
        Enum inches = table.TryFind(Compact(parts.Groups["inchUnit"].Value))!;
        double whole = Number(parts.Groups["feet"].Value);
        double part = Fraction(parts.Groups["inches"].Value);
        return whole <= LargestFigure && part <= LargestFigure
            ? new Reading(table.ToSi(whole, feet) + table.ToSi(part, inches), null)
            : new Reading(0, Fact.Of("quantity.beyond", ("text", Quoted(parts.Value))));
    }

    private static Fact NotANumber(UnitTable table, string tidy, string text)
    {
        if (tidy.Length == 0)
        {
            return Fact.Of("quantity.nothing", ("kind", table.What), ("example", Example(table)));
        }

        return Comma().IsMatch(tidy)
            ? Fact.Of("quantity.comma", ("text", Quoted(text)), ("example", Example(table)))
            : Fact.Of("quantity.no-number", ("text", Quoted(text)), ("kind", table.What), ("example", Example(table)));
    }

    private static double Figure(Match parts)
    {
        if (!parts.Groups["over"].Success)
        {
            return Number(parts.Groups["number"].Value);
        }

        double whole = parts.Groups["whole"].Success ? Number(parts.Groups["whole"].Value) : 0;
        return whole + Number(parts.Groups["part"].Value) / Number(parts.Groups["over"].Value);
    }

    // "6", "6.5", "1/2" or "6 1/2".
    private static double Fraction(string digits)
    {
        string[]? pieces = digits.Split([' ', '-', '/'], StringSplitOptions.RemoveEmptyEntries);
        return digits.Contains('/', StringComparison.Ordinal)
            ? (pieces.Length == 3 ? Number(pieces[0]) : 0) + Number(pieces[^2]) / Number(pieces[^1])
            : Number(digits);
    }

    private static double Number(string digits) => double.Parse(digits, NumberStyles.Float, CultureInfo.InvariantCulture);

    private static Fact Example(UnitTable table)
    {
        (string? metric, string? us) = (table.Examples[Units.Metric], table.Examples[Units.Us]);
        return metric == us ? Fact.Of("plain", ("what", Quoted(metric))) : Fact.Of("quantity.or", ("metric", Quoted(metric)), ("us", Quoted(us)));
    }

    private static string RangeExample(UnitTable table)
    {
        Match parts = Simple().Match(table.Examples[Units.Metric]);
        string unit = parts.Groups["unit"].Value;
        return Quoted($"0 {unit} to {parts.Groups["number"].Value} {unit}");
    }

    private static string Quoted(string text) =>
        $"\"{(text.Length <= LongestShown ? text : string.Concat(text.AsSpan(0, LongestShown), "…"))}\"";

    // ½ and its like, as keyboards and word processors write them, and the fraction slash.
    private static string FractionToDecimal(string text)
    {
        if (text.All(char.IsAscii))
        {
            return text;
        }

        text = text.Replace('\u2044', '/');
        foreach ((string? sign, string? fraction) in Fractions)
        {
            text = text.Replace(sign, " " + fraction, StringComparison.Ordinal);
        }

        return text;
    }

    // One sign, one degree mark, one kind of blank and of foot and inch marks.
    private static string Tidy(string text) => Blanks().Replace(FractionToDecimal(text), " ").Trim()
        .Replace('−', '-').Replace('º', '°').Replace('′', '\'').Replace('’', '\'').Replace('″', '"').Replace('”', '"')
        .Replace("℃", "°C", StringComparison.Ordinal).Replace("℉", "°F", StringComparison.Ordinal);

    [GeneratedRegex(@"^(?:(?:(?<whole>\d+)[ -])?(?<part>\d+)/(?<over>0*[1-9]\d*)|(?<number>[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)(?![\d.,])) ?(?<unit>(?![\d.,]|/ ?\d).*)?$", RegexOptions.ExplicitCapture)]
    private static partial Regex Simple();

    [GeneratedRegex(@"^(?<feet>\d+) ?(?<feetUnit>ft|foot|feet|')[ -]?(?<inches>(\d+[ -])?\d+/0*[1-9]\d*|\d+(\.\d+)?) ?(?<inchUnit>in|inch|inches|"")$", RegexOptions.ExplicitCapture | RegexOptions.IgnoreCase)]
    private static partial Regex Compound();

    [GeneratedRegex(@" to | ?(?:–|—|\.\.+) ?| - |(?<=\d) ?- ?(?=\d)", RegexOptions.ExplicitCapture | RegexOptions.IgnoreCase)]
    private static partial Regex RangeSeparator();

    [GeneratedRegex(@"^[+-]?\d[\d.]*,\d")]
    private static partial Regex Comma();

    [GeneratedRegex(@"^(?:psia|bara|kPaa|.*\(a\)|.*abs(?:olute)?)$", RegexOptions.IgnoreCase)]
    private static partial Regex Absolute();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Blanks();
}
