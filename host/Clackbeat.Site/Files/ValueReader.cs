using System.Globalization;
using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Site.Quantities;
using Tomlyn.Syntax;

namespace Clackbeat.Site.Files;

/// <summary>Turns the value of one key into what the key promises, or says why it can't.</summary>
internal static class ValueReader
{
    /// <summary>Reads a value.</summary>
    /// <param name="key">The key it belongs to.</param>
    /// <param name="syntax">The value as written.</param>
    /// <param name="problem">What is wrong; empty when nothing is.</param>
    /// <returns>A double (SI), Band (SI), SensorOutput (SI), string, PipeMaterial, int, bool or DateOnly by the key's kind.</returns>
    public static object? Read(SiteKey key, ValueSyntax syntax, out string problem)
    {
        problem = "";
        return key.Kind switch
        {
            ValueKind.Quantity => Quantity(key, syntax, ref problem),
            ValueKind.Range => Range(key, syntax, ref problem),
            ValueKind.SignalRange => SignalRange(key, syntax, ref problem),
            ValueKind.Number => Number(key, syntax, ref problem),
            ValueKind.Integer => Integer(key, syntax, ref problem),
            ValueKind.Flag => Flag(key, syntax, ref problem),
            ValueKind.Date => Date(key, syntax, ref problem),
            ValueKind.Material => Material(key, syntax, ref problem),
            ValueKind.Choice => Choice(key, syntax, ref problem),
            _ => Text(key, syntax, ref problem),
        };
    }

    private static string? Text(SiteKey key, ValueSyntax syntax, ref string problem)
    {
        if (syntax is StringValueSyntax text)
        {
            if (!string.IsNullOrWhiteSpace(text.Value))
            {
                return text.Value.Trim();
            }

            problem = $"nothing is written; write something like {key.Quoted(Units.Metric)}, or leave the key out.";
            return null;
        }

        problem = key.Kind is ValueKind.Quantity or ValueKind.Range or ValueKind.SignalRange
            ? $"a quantity is text with its unit, in quotes; write something like {Examples(key)}."
            : $"this is text in quotes; write something like {Examples(key)}.";
        return null;
    }

    private static double? Quantity(SiteKey key, ValueSyntax syntax, ref string problem)
    {
        if (Text(key, syntax, ref problem) is not { } text
            || !QuantityText.TryParse(key.Quantity, text, out var value, out problem))
        {
            return null;
        }

        problem = OutOfLimits(key, value, QuantityFormat.Format(key.Quantity, value, Units.Metric));
        return value;
    }

    private static Band? Range(SiteKey key, ValueSyntax syntax, ref string problem)
    {
        if (Text(key, syntax, ref problem) is not { } text
            || !QuantityText.TryParseRange(key.Quantity, text, out var low, out var high, out problem))
        {
            return null;
        }

        foreach (var end in new[] { low, high })
        {
            problem = problem.Length > 0
                ? problem
                : OutOfLimits(key, end, QuantityFormat.Format(key.Quantity, end, Units.Metric));
        }

        return new Band(low, high);
    }

    private static SensorOutput? SignalRange(SiteKey key, ValueSyntax syntax, ref string problem)
    {
        if (Text(key, syntax, ref problem) is not { } text)
        {
            return null;
        }

        if (QuantityText.TryParseRange(QuantityKind.Voltage, text, out var lowV, out var highV, out _))
        {
            problem = OutOfLimits(key, highV, QuantityFormat.Format(QuantityKind.Voltage, highV, Units.Metric));
            return new SensorOutput(SignalKind.Voltage, lowV, highV, true);
        }

        if (QuantityText.TryParseRange(QuantityKind.Current, text, out var lowA, out var highA, out _))
        {
            return new SensorOutput(SignalKind.Current, lowA, highA, false);
        }

        problem = $"\"{text}\" is no range of volts or milliamperes; write something like \"0.5 V to 4.5 V\" or \"4 mA to 20 mA\".";
        return null;
    }

    private static double? Number(SiteKey key, ValueSyntax syntax, ref string problem)
    {
        var value = syntax switch
        {
            FloatValueSyntax f => f.Value,
            IntegerValueSyntax i => i.Value,
            StringValueSyntax s when double.TryParse(s.Value, CultureInfo.InvariantCulture, out var parsed) => parsed,
            _ => double.NaN,
        };
        problem = double.IsFinite(value)
            ? OutOfLimits(key, value, value.ToString("G6", CultureInfo.InvariantCulture))
            : $"this is a number without a unit; write something like {key.Metric}.";
        return value;
    }

    private static int? Integer(SiteKey key, ValueSyntax syntax, ref string problem)
    {
        var value = Number(key, syntax, ref problem);
        if (problem.Length > 0 || value is not double number)
        {
            return null;
        }

        if (number != Math.Floor(number))
        {
            problem = $"this is a whole number; write something like {key.Metric}.";
            return null;
        }

        return (int)number;
    }

    private static bool? Flag(SiteKey key, ValueSyntax syntax, ref string problem)
    {
        if (syntax is BooleanValueSyntax flag)
        {
            return flag.Value;
        }

        problem = $"write {key.Key} = true or {key.Key} = false, without quotes.";
        return null;
    }

    private static DateOnly? Date(SiteKey key, ValueSyntax syntax, ref string problem)
    {
        var text = syntax switch
        {
            DateTimeValueSyntax stamp => stamp.Value.DateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            StringValueSyntax written => written.Value ?? "",
            _ => "",
        };
        if (DateOnly.TryParseExact(text.Trim(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date))
        {
            return date;
        }

        problem = $"this is a date, year first; write {key.Key} = {key.Metric}.";
        return null;
    }

    private static PipeMaterial? Material(SiteKey key, ValueSyntax syntax, ref string problem)
    {
        if (Text(key, syntax, ref problem) is not { } text)
        {
            return null;
        }

        if (MaterialNames.TryParse(text, out var material))
        {
            return material;
        }

        problem = MaterialNames.Unknown(text);
        return null;
    }

    private static string? Choice(SiteKey key, ValueSyntax syntax, ref string problem)
    {
        if (Text(key, syntax, ref problem) is not { } text)
        {
            return null;
        }

        var chosen = key.Choices.FirstOrDefault(c => c.Equals(text, StringComparison.OrdinalIgnoreCase));
        problem = chosen is null ? $"\"{text}\" is none of the choices; write one of {Listed(key.Choices)}." : "";
        return chosen;
    }

    private static string OutOfLimits(SiteKey key, double value, string shown)
    {
        var low = key.Limits.Low;
        var high = key.Limits.High;
        if (value > low || (value == low && !key.AboveLow))
        {
            return value <= high ? "" : $"{shown} is more than can be ({Shown(key, high)}); check figure and unit.";
        }

        return $"{shown} is less than can be ({(key.AboveLow ? "it must be above " : "")}{Shown(key, low)}); check figure and unit.";
    }

    private static string Shown(SiteKey key, double value) => key.Kind is ValueKind.Quantity or ValueKind.Range
        ? QuantityFormat.Format(key.Quantity, value, Units.Metric)
        : value.ToString("G6", CultureInfo.InvariantCulture);

    private static string Examples(SiteKey key) =>
        key.Metric == key.Us ? key.Quoted(Units.Metric) : $"{key.Quoted(Units.Metric)} or {key.Quoted(Units.Us)}";

    private static string Listed(IReadOnlyList<string> choices) => string.Join(", ", choices.Select(c => $"\"{c}\""));
}
