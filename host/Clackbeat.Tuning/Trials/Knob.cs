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
    private const double ProposalsOverRange = 20;

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

    /// <summary>
    /// Steps in which settings are proposed: <see cref="Step"/>, or without one the round figure (1, 2 or 5 times a power of ten)
    /// next above a twentieth of the range. A keeper sets no finer by hand, and eight trials tell no more.
    /// </summary>
    public double ProposedStep
    {
        get
        {
            if (Step > 0)
            {
                return Step;
            }

            double least = Span / ProposalsOverRange;
            double decade = Math.Pow(10, Math.Floor(Math.Log10(least)));
            return decade * new[] { 1.0, 2, 5, 10 }.First(round => round * decade >= least * (1 - 1e-9));
        }
    }

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
            throw InputException.Of("tuning.no-range", ("text", text));
        }

        string unit = match.Groups["hu"].Value.Trim();
        var bare = new Knob { Name = match.Groups["name"].Value.Trim(), Unit = unit, Lowest = 0, Highest = 1 };
        double lowest = bare.Setting($"{match.Groups["low"].Value} {match.Groups["lu"].Value}");
        double highest = bare.Setting($"{match.Groups["high"].Value} {unit}");
        double step = match.Groups["step"].Success ? bare.Setting($"{match.Groups["step"].Value} {match.Groups["su"].Value}") : 0;
        if (Check(lowest, highest, step) != KnobProblem.None)
        {
            throw InputException.Of("tuning.range-order", ("text", text));
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
        if (!match.Success || Figure(match.Groups["n"].Value) is not { } figure)
        {
            throw InputException.Of("tuning.no-setting", ("text", text), ("knob", Name), ("example", Text(Highest)));
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

        throw Unit.Length > 0
            ? InputException.Of("tuning.other-unit", ("text", text), ("knob", Name), ("unit", Unit))
            : InputException.Of("tuning.no-unit", ("text", text), ("knob", Name));
    }

    // "8.5", "1/4" or "1 1/4".
    private static double? Figure(string text)
    {
        string[] parts = text.Split([' ', '-', '/'], StringSplitOptions.RemoveEmptyEntries);
        double[] numbers = [.. parts.Select(p => double.TryParse(p, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) ? number : double.NaN)];
        double figure = !text.Contains('/', StringComparison.Ordinal)
            ? double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double plain) ? plain : double.NaN
            : (numbers.Length == 3 ? numbers[0] : 0) + (numbers[^2] / numbers[^1]);
        return double.IsFinite(figure) ? figure : null;
    }

    /// <summary>The setting itself, where it lies in the range.</summary>
    /// <exception cref="InputException">It doesn't.</exception>
    public double Within(double setting) => setting >= Lowest && setting <= Highest
        ? setting
        : throw InputException.Of("tuning.outside", ("setting", Text(setting)), ("knob", Name), ("low", Text(Lowest)), ("high", Text(Highest)));

    /// <summary>A setting with its unit.</summary>
    public string Text(double setting) =>
        $"{Math.Round(setting, 6).ToString("0.####", CultureInfo.InvariantCulture)} {Unit}".Trim();

    /// <summary>
    /// The nearest setting that is proposed: steps of the valve count from the lowest setting, round figures from nothing; both
    /// ends of the range count too.
    /// </summary>
    public double Nearest(double setting)
    {
        double clamped = Math.Clamp(setting, Lowest, Highest);
        double from = Step > 0 ? Lowest : 0;
        double step = ProposedStep;
        // Through a decimal, 3 × 0.1 would not be 0.3.
        double stepped = Math.Round(from + (step * Math.Round((clamped - from) / step)), 9);
        double end = clamped - Lowest < Highest - clamped ? Lowest : Highest;
        return stepped < Lowest || stepped > Highest || Math.Abs(end - clamped) < Math.Abs(stepped - clamped) ? end : stepped;
    }

    /// <summary>A setting as a share of the range.</summary>
    public double Share(double setting) => (setting - Lowest) / Span;

    [GeneratedRegex(@"^(?<name>\p{L}[\p{L} -]*?)\s+(?<low>(?:\d+[ -])?\d+/[1-9]\d*|[\d.]+)\s*(?<lu>[^\d]*?)\s+to\s+(?<high>(?:\d+[ -])?\d+/[1-9]\d*|[\d.]+)\s*(?<hu>(?!by\b)\D*?)(\s+by\s+(?<step>(?:\d+[ -])?\d+/[1-9]\d*|[\d.]+)\s*(?<su>.*))?$")]
    private static partial Regex Grammar();

    [GeneratedRegex(@"^(?<n>(?:\d+[ -])?\d+/[1-9]\d*|-?[\d.]+)\s*(?<u>.*)$")]
    private static partial Regex Quantity();
}
