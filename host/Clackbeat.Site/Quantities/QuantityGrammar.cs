using System.Globalization;
using System.Text.RegularExpressions;

namespace Clackbeat.Site.Quantities;

/// <summary>The writing rules of quantities, and the words for each way of breaking them.</summary>
internal static partial class QuantityGrammar
{
    private const int LongestRead = 120;
    private const int LongestShown = 40;
    private const double LargestFigure = 1e30;

    /// <summary>A value, or what is wrong with the text.</summary>
    internal readonly record struct Reading(double Value, string Problem);

    /// <summary>Reads "2.5 m", "1 1/2 in" or, for lengths, "12 ft 6 in".</summary>
    public static Reading Read(UnitTable table, string text)
    {
        if (text.Length > LongestRead)
        {
            return new Reading(0, $"{Quoted(text)} is far too long for a quantity.");
        }

        var tidy = Tidy(text);
        if (Compound().Match(tidy) is { Success: true } feet && table == UnitTable.Of(QuantityKind.Length))
        {
            return ReadFeetAndInches(table, feet);
        }

        var parts = Simple().Match(tidy);
        if (!parts.Success)
        {
            return new Reading(0, NotANumber(table, tidy, text));
        }

        var unit = parts.Groups["unit"].Value;
        if (unit.Length == 0)
        {
            return new Reading(0, $"{Quoted(text)} has no unit; write {table.What} with its unit, such as {Example(table)}.");
        }

        if (table.TryFind(Compact(unit)) is not { } known)
        {
            return new Reading(0, UnknownUnit(table, unit));
        }

        var figure = Figure(parts);
        return Math.Abs(figure) <= LargestFigure
            ? new Reading(table.ToSi(figure, known), "")
            : new Reading(0, $"{Quoted(text)} is beyond any real figure.");
    }

    /// <summary>Reads two quantities with "to" or a dash between them.</summary>
    public static (double Low, double High, string Problem) ReadRange(UnitTable table, string text)
    {
        var ends = text.Length <= LongestRead ? RangeSeparator().Split(Tidy(text), 2) : [];
        if (ends.Length != 2)
        {
            return (0, 0, $"{Quoted(text)} is no range; write both ends, such as {Quoted(RangeExample(table))}.");
        }

        var upper = Simple().Match(ends[1]);
        var first = Simple().Match(ends[0]) is { Success: true } lower && lower.Groups["unit"].Length == 0 && upper.Success
            ? $"{ends[0]} {upper.Groups["unit"].Value}"
            : ends[0];
        var low = Read(table, first);
        var high = Read(table, ends[1]);
        if (low.Problem.Length + high.Problem.Length > 0)
        {
            return (0, 0, low.Problem.Length > 0 ? low.Problem : high.Problem);
        }

        return low.Value < high.Value
            ? (low.Value, high.Value, "")
            : (0, 0, $"{Quoted(text)} doesn't rise; write the lower end first, such as {Quoted(RangeExample(table))}.");
    }

    /// <summary>What to say of a unit that isn't one of this kind.</summary>
    public static string UnknownUnit(UnitTable table, string unit)
    {
        var spelt = Compact(unit);
        if (table == UnitTable.Of(QuantityKind.Pressure) && Absolute().IsMatch(spelt))
        {
            return $"{Quoted(unit)} is absolute pressure; write the pressure above the air's (gauge), such as {Example(table)}.";
        }

        if (UnitTable.Knowing(spelt).FirstOrDefault() is { } other)
        {
            return $"{Quoted(unit)} is the unit of {other.What}; write {table.What}, such as {Example(table)}.";
        }

        var hint = Spelling.Nearest(spelt, table.Spellings) is { } near ? $" Did you mean {Quoted(near)}?" : "";
        return $"{Quoted(unit)} is no unit known here.{hint} Write {table.What}, such as {Example(table)}.";
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
        var feet = table.TryFind(Compact(parts.Groups["feetUnit"].Value))!;
        var inches = table.TryFind(Compact(parts.Groups["inchUnit"].Value))!;
        var whole = Number(parts.Groups["feet"].Value);
        var part = Number(parts.Groups["inches"].Value);
        return whole <= LargestFigure && part <= LargestFigure
            ? new Reading(table.ToSi(whole, feet) + table.ToSi(part, inches), "")
            : new Reading(0, $"{Quoted(parts.Value)} is beyond any real figure.");
    }

    private static string NotANumber(UnitTable table, string tidy, string text)
    {
        if (tidy.Length == 0)
        {
            return $"nothing is written; write {table.What}, such as {Example(table)}.";
        }

        return Comma().IsMatch(tidy)
            ? $"{Quoted(text)} has a comma; write the figure with a point and no thousands mark, such as {Example(table)}."
            : $"{Quoted(text)} is no number with a unit; write {table.What}, such as {Example(table)}.";
    }

    private static double Figure(Match parts)
    {
        if (!parts.Groups["over"].Success)
        {
            return Number(parts.Groups["number"].Value);
        }

        var whole = parts.Groups["whole"].Success ? Number(parts.Groups["whole"].Value) : 0;
        return whole + Number(parts.Groups["part"].Value) / Number(parts.Groups["over"].Value);
    }

    private static double Number(string digits) => double.Parse(digits, NumberStyles.Float, CultureInfo.InvariantCulture);

    private static string Example(UnitTable table)
    {
        var (metric, us) = (table.Examples[Units.Metric], table.Examples[Units.Us]);
        return metric == us ? Quoted(metric) : $"{Quoted(metric)} or {Quoted(us)}";
    }

    private static string RangeExample(UnitTable table)
    {
        var parts = Simple().Match(table.Examples[Units.Metric]);
        var unit = parts.Groups["unit"].Value;
        return $"0 {unit} to {parts.Groups["number"].Value} {unit}";
    }

    private static string Quoted(string text) =>
        $"\"{(text.Length <= LongestShown ? text : string.Concat(text.AsSpan(0, LongestShown), "…"))}\"";

    // One sign, one degree mark, one kind of blank and of foot and inch marks.
    private static string Tidy(string text) => Blanks().Replace(text, " ").Trim()
        .Replace('−', '-').Replace('º', '°').Replace('′', '\'').Replace('’', '\'').Replace('″', '"').Replace('”', '"')
        .Replace("℃", "°C", StringComparison.Ordinal).Replace("℉", "°F", StringComparison.Ordinal);

    [GeneratedRegex(@"^(?:(?:(?<whole>\d+)[ -])?(?<part>\d+)/(?<over>0*[1-9]\d*)|(?<number>[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)(?![\d.,])) ?(?<unit>(?![\d.,]|/ ?\d).*)?$", RegexOptions.ExplicitCapture)]
    private static partial Regex Simple();

    [GeneratedRegex(@"^(?<feet>\d+) ?(?<feetUnit>ft|foot|feet|') ?(?<inches>\d+(\.\d+)?) ?(?<inchUnit>in|inch|inches|"")$", RegexOptions.ExplicitCapture | RegexOptions.IgnoreCase)]
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
