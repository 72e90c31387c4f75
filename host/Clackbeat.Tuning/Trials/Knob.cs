using System.Globalization;
using System.Text.RegularExpressions;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Tuning.Trials;

/// <summary>What is wrong with a range of settings.</summary>
public enum KnobProblem
{
    /// <summary>Nothing.</summary>
    None,

    /// <summary>An end or the step is no number.</summary>
    NotANumber,

    /// <summary>An end or the step is less than nothing.</summary>
    Negative,

    /// <summary>It doesn't run from a lower to a higher setting.</summary>
    UpsideDown,

    /// <summary>Its step is as wide as the whole range, or wider.</summary>
    StepTooWide,
}

/// <summary>
/// What is turned between trials: the waste valve's stroke, its weight, its spring. Settings are figures in the unit the
/// keeper thinks in, which may be one of no system ("turns", "washers").
/// </summary>
public sealed partial record Knob
{
    private static readonly QuantityKind[] Convertible = [QuantityKind.Length, QuantityKind.Mass, QuantityKind.Force, QuantityKind.Stiffness];

    /// <summary>What it is, such as "stroke".</summary>
    public required string Name { get; init; }

    /// <summary>Unit of the settings, such as "mm"; empty for a bare number.</summary>
    public required string Unit { get; init; }

    /// <summary>Lowest setting the ram allows.</summary>
    public required double Lowest { get; init; }

    /// <summary>Highest setting the ram allows.</summary>
    public required double Highest { get; init; }

    /// <summary>Settings can be told apart, or made, in steps of this; 0 when any setting can.</summary>
    public double Step { get; init; }

    /// <summary>Width of the range.</summary>
    public double Span => Highest - Lowest;

    /// <summary>Reads a knob such as "stroke 4 mm to 12 mm", with "by 0.5 mm" where it moves in steps.</summary>
    /// <exception cref="InputException">The text is no knob; the message says what to write.</exception>
    public static Knob Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        Match match = Grammar().Match(text.Trim());
        if (!match.Success)
        {
            throw new InputException(
                $"\"{text}\" is no range of settings. Write what is turned and from where to where, such as \"stroke 4 mm to 12 mm\", "
                + "\"weight 200 g to 900 g by 50 g\" or \"spring 0 to 6 turns\".");
        }

        string unit = match.Groups["hu"].Value.Trim();
        var bare = new Knob { Name = match.Groups["name"].Value.Trim(), Unit = unit, Lowest = 0, Highest = 1 };
        double lowest = bare.Setting($"{match.Groups["low"].Value} {match.Groups["lu"].Value}");
        double highest = bare.Setting($"{match.Groups["high"].Value} {unit}");
        double step = match.Groups["step"].Success ? bare.Setting($"{match.Groups["step"].Value} {match.Groups["su"].Value}") : 0;
        if (Check(lowest, highest, step) != KnobProblem.None)
        {
            throw new InputException($"\"{text}\": the range has to run from a lower to a higher setting, and its step has to be smaller than that.");
        }

        return bare with { Lowest = lowest, Highest = highest, Step = step };
    }

    /// <summary>What is wrong with a range, in one unit.</summary>
    /// <param name="lowest">Lower end.</param>
    /// <param name="highest">Upper end.</param>
    /// <param name="step">Step; 0 when any setting can be made.</param>
    public static KnobProblem Check(double lowest, double highest, double step) =>
        !double.IsFinite(lowest) || !double.IsFinite(highest) || !double.IsFinite(step) ? KnobProblem.NotANumber
        : lowest < 0 || step < 0 ? KnobProblem.Negative
        : lowest >= highest ? KnobProblem.UpsideDown
        : step >= highest - lowest ? KnobProblem.StepTooWide
        : KnobProblem.None;

    /// <summary>Reads a setting: a bare figure, or one with this knob's unit or another unit of the same kind.</summary>
    /// <exception cref="InputException">The text is no setting of this knob.</exception>
    public double Setting(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        Match match = Quantity().Match(text.Trim());
        if (!match.Success || !double.TryParse(match.Groups["n"].Value, NumberStyles.Float, CultureInfo.InvariantCulture, out double figure))
        {
            throw new InputException($"\"{text}\" is no setting of the {Name}. Write a number and its unit, such as \"{Text(Highest)}\".");
        }

        string unit = match.Groups["u"].Value.Trim();
        if (unit.Length == 0 || unit == Unit)
        {
            return figure;
        }

        foreach (QuantityKind kind in Convertible)
        {
            if (QuantityText.IsUnit(kind, unit) && QuantityText.IsUnit(kind, Unit))
            {
                return (QuantityText.Unit(kind, unit).ToSi(figure) - QuantityText.Unit(kind, Unit).Offset) / QuantityText.Unit(kind, Unit).Scale;
            }
        }

        throw new InputException($"\"{text}\": settings of the {Name} are in {(Unit.Length > 0 ? Unit : "bare numbers")}.");
    }

    /// <summary>The setting itself, where it lies in the range.</summary>
    /// <exception cref="InputException">It doesn't.</exception>
    public double Within(double setting) => setting >= Lowest && setting <= Highest
        ? setting
        : throw new InputException($"{Text(setting)} lies outside of the {Name}'s range, {Text(Lowest)} to {Text(Highest)}.");

    /// <summary>A setting with its unit.</summary>
    public string Text(double setting) =>
        $"{Math.Round(setting, 6).ToString("0.####", CultureInfo.InvariantCulture)} {Unit}".Trim();

    /// <summary>The nearest setting that can be made.</summary>
    public double Nearest(double setting)
    {
        double clamped = Math.Clamp(setting, Lowest, Highest);
        return Step > 0 ? Math.Clamp(Lowest + (Step * Math.Round((clamped - Lowest) / Step)), Lowest, Highest) : clamped;
    }

    /// <summary>A setting as a share of the range.</summary>
    public double Share(double setting) => (setting - Lowest) / Span;

    [GeneratedRegex(@"^(?<name>\p{L}[\p{L} -]*?)\s+(?<low>[\d.]+)\s*(?<lu>[^\d]*?)\s+to\s+(?<high>[\d.]+)\s*(?<hu>.*?)(\s+by\s+(?<step>[\d.]+)\s*(?<su>.*))?$")]
    private static partial Regex Grammar();

    [GeneratedRegex(@"^(?<n>-?[\d.]+)\s*(?<u>.*)$")]
    private static partial Regex Quantity();
}
