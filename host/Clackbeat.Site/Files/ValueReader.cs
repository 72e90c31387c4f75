using System.Globalization;
using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Quantities;
using Tomlyn.Syntax;

namespace Clackbeat.Site.Files;

/// <summary>Turns the value of one key into what the key promises, or says why it can't.</summary>
internal static class ValueReader
{
    /// <summary>Reads a value.</summary>
    /// <param name="key">The key it belongs to.</param>
    /// <param name="syntax">The value as written.</param>
    /// <param name="problem">What is wrong; null when nothing is.</param>
    /// <returns>A double (SI), Band (SI), SensorOutput (SI), string, PipeMaterial, int, bool or DateOnly by the key's kind.</returns>
    public static object? Read(SiteKey key, ValueSyntax syntax, out Fact? problem)
    {
        problem = null;
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

    private static string? Text(SiteKey key, ValueSyntax syntax, ref Fact? problem)
    {
        if (syntax is StringValueSyntax text)
        {
            if (!string.IsNullOrWhiteSpace(text.Value))
            {
                return text.Value.Trim();
            }

            problem = Fact.Of("value.nothing", ("example", key.Quoted(Units.Metric)));
            return null;
        }

        problem = key.Kind is ValueKind.Quantity or ValueKind.Range or ValueKind.SignalRange
            ? Fact.Of("value.quantity", ("example", Examples(key)))
            : Fact.Of("value.text", ("example", Examples(key)));
        return null;
    }

    private static double? Quantity(SiteKey key, ValueSyntax syntax, ref Fact? problem)
    {
        if (Text(key, syntax, ref problem) is not { } text
            || !QuantityText.TryParse(key.Quantity, text, out double value, out problem))
        {
            return null;
        }

        problem = OutOfLimits(key, value, InUnits(key, value));
        return value;
    }

    private static Band? Range(SiteKey key, ValueSyntax syntax, ref Fact? problem)
    {
        if (Text(key, syntax, ref problem) is not { } text
            || !QuantityText.TryParseRange(key.Quantity, text, out double low, out double high, out problem))
        {
            return null;
        }

        foreach (double end in new[] { low, high })
        {
            problem ??= OutOfLimits(key, end, InUnits(key, end));
        }

        return new Band(low, high);
    }

    private static SensorOutput? SignalRange(SiteKey key, ValueSyntax syntax, ref Fact? problem)
    {
        if (Text(key, syntax, ref problem) is not { } text)
        {
            return null;
        }

        if (QuantityText.TryParseRange(QuantityKind.Voltage, text, out double lowV, out double highV, out _))
        {
            problem = OutOfLimits(key, highV, Told(new Quantity(QuantityKind.Voltage, highV, Units.Metric)));
            return new SensorOutput(SignalKind.Voltage, lowV, highV, true);
        }

        if (QuantityText.TryParseRange(QuantityKind.Current, text, out double lowA, out double highA, out _))
        {
            return new SensorOutput(SignalKind.Current, lowA, highA, false);
        }

        problem = Fact.Of("value.signal", ("text", text));
        return null;
    }

    private static double? Number(SiteKey key, ValueSyntax syntax, ref Fact? problem)
    {
        double value = syntax switch
        {
            FloatValueSyntax f => f.Value,
            IntegerValueSyntax i => i.Value,
            StringValueSyntax s when double.TryParse(s.Value, CultureInfo.InvariantCulture, out double parsed) => parsed,
            _ => double.NaN,
        };
        problem = double.IsFinite(value)
            ? OutOfLimits(key, value, Shown(key, value))
            : Fact.Of("value.number", ("example", key.Metric));
        return value;
    }

    private static int? Integer(SiteKey key, ValueSyntax syntax, ref Fact? problem)
    {
        double? value = Number(key, syntax, ref problem);
        if (problem is not null || value is not double number)
        {
            return null;
        }

        if (number != Math.Floor(number))
        {
            problem = Fact.Of("value.integer", ("example", key.Metric));
            return null;
        }

        return (int)number;
    }

    private static bool? Flag(SiteKey key, ValueSyntax syntax, ref Fact? problem)
    {
        if (syntax is BooleanValueSyntax flag)
        {
            return flag.Value;
        }

        problem = Fact.Of("value.flag", ("key", key.Key));
        return null;
    }

    private static DateOnly? Date(SiteKey key, ValueSyntax syntax, ref Fact? problem)
    {
        string text = syntax switch
        {
            DateTimeValueSyntax stamp => stamp.Value.DateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            StringValueSyntax written => written.Value ?? "",
            _ => "",
        };
        if (DateOnly.TryParseExact(text.Trim(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly date))
        {
            return date;
        }

        problem = Fact.Of("value.date", ("key", key.Key), ("example", key.Metric));
        return null;
    }

    private static PipeMaterial? Material(SiteKey key, ValueSyntax syntax, ref Fact? problem)
    {
        if (Text(key, syntax, ref problem) is not { } text)
        {
            return null;
        }

        if (MaterialNames.TryParse(text, out PipeMaterial material))
        {
            return material;
        }

        problem = MaterialNames.Unknown(text);
        return null;
    }

    private static string? Choice(SiteKey key, ValueSyntax syntax, ref Fact? problem)
    {
        if (Text(key, syntax, ref problem) is not { } text)
        {
            return null;
        }

        string? chosen = key.Choices.FirstOrDefault(c => c.Equals(text, StringComparison.OrdinalIgnoreCase));
        problem = chosen is null ? Fact.Of("value.choice", ("text", text), ("choices", Listed(key.Choices))) : null;
        return chosen;
    }

    private static Fact? OutOfLimits(SiteKey key, double value, Fact shown)
    {
        double low = key.Limits.Low;
        double high = key.Limits.High;
        if (value > low || (value == low && !key.AboveLow))
        {
            return value <= high ? null : Fact.Of("value.too-much", ("value", shown), ("limit", Shown(key, high)));
        }

        return key.AboveLow
            ? Fact.Of("value.not-above", ("value", shown), ("limit", Shown(key, low)))
            : Fact.Of("value.too-little", ("value", shown), ("limit", Shown(key, low)));
    }

    private static Fact Shown(SiteKey key, double value) => key.Kind is ValueKind.Quantity or ValueKind.Range
        ? InUnits(key, value)
        : Fact.Of("plain", ("what", value.ToString("G6", CultureInfo.InvariantCulture)));

    private static Fact InUnits(SiteKey key, double value) => Told(new Quantity(key.Quantity, value, Units.Metric));

    private static Fact Told(Quantity quantity) => Fact.Of("plain", ("what", quantity));

    private static Fact Examples(SiteKey key) => key.Metric == key.Us
        ? Fact.Of("plain", ("what", key.Quoted(Units.Metric)))
        : Fact.Of("quantity.or", ("metric", key.Quoted(Units.Metric)), ("us", key.Quoted(Units.Us)));

    private static string Listed(IReadOnlyList<string> choices) => string.Join(", ", choices.Select(c => $"\"{c}\""));
}
