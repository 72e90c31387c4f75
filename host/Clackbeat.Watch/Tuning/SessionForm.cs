using System.Globalization;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Tuning.Trials;

namespace Clackbeat.Watch.Tuning;

/// <summary>What a page sends to begin a session: numbers as they were typed.</summary>
/// <param name="Knob">What is turned.</param>
/// <param name="Unit">Unit of all settings.</param>
/// <param name="Low">Lowest setting.</param>
/// <param name="High">Highest setting.</param>
/// <param name="Step">Step; empty for none.</param>
/// <param name="Now">How it is set now.</param>
/// <param name="Aim">What for.</param>
/// <param name="Enough">Least flow that is enough, for the gentlest peak; empty for half of the most.</param>
/// <param name="Units">Units of that flow: "metric" or "us".</param>
public sealed record SessionForm(
    string? Knob, string? Unit, string? Low, string? High, string? Step, string? Now, string? Aim, string? Enough, string? Units);

/// <summary>A wish that can't be met.</summary>
/// <param name="Code">Why, a word of the page's words.</param>
/// <param name="Field">Which field of the form is wrong; null where none is.</param>
/// <param name="Words">What the computer itself said, where that helps.</param>
public sealed record TuningProblem(string Code, string? Field = null, string? Words = null);

/// <summary>Reads the form with which a session begins.</summary>
internal static class SessionForms
{
    private const int LongestWord = 24;

    /// <summary>The session, or what is wrong.</summary>
    public static (TuningSession? Session, TuningProblem? Problem) Read(SessionForm form, RamSite site, IRamKnob? ramKnob)
    {
        string name = Word(form.Knob);
        string unit = Word(form.Unit);
        (double low, double high, double now) = (Number(form.Low), Number(form.High), Number(form.Now));
        double step = string.IsNullOrWhiteSpace(form.Step) ? 0 : Number(form.Step);
        TuningProblem? problem =
            name.Length == 0 || !name.All(c => char.IsLetter(c) || c is ' ' or '-') ? new TuningProblem("knob", "knob")
            : unit.Length == 0 || unit.Any(char.IsDigit) ? new TuningProblem("unit", "unit")
            : Range(low, high, step)
            ?? (double.IsNaN(now) ? new TuningProblem("number", "now") : now < low || now > high ? new TuningProblem("now-outside", "now") : null);
        if (problem is not null)
        {
            return (null, problem);
        }

        var knob = new Knob { Name = name, Unit = unit, Lowest = low, Highest = high, Step = step };
        if (ramKnob is not null && (ramKnob.Hints.All(h => h.Name != name) || KnobUnits.ToSi(knob, now) is null))
        {
            return (null, new TuningProblem("virtual", "unit"));
        }

        if (!TuningAims.All.Contains(form.Aim))
        {
            return (null, new TuningProblem("aim", "aim"));
        }

        TuningAim aim = TuningAims.Parse(form.Aim!);
        Units units = form.Units == "us" ? Units.Us : Units.Metric;
        (double? enough, bool isWrong) = Enough(aim, form.Enough, units);
        return isWrong
            ? (null, new TuningProblem("enough", "enough"))
            : (new TuningSession { Ram = site.Name, Knob = knob, Aim = aim, EnoughM3PerS = enough, Now = now, Units = units }, null);
    }

    /// <summary>A number as people type it, with a point or a comma; NaN for what is none.</summary>
    public static double Number(string? text) =>
        double.TryParse((text ?? "").Trim().Replace(',', '.'), NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out double number)
        && double.IsFinite(number) ? number : double.NaN;

    private static TuningProblem? Range(double low, double high, double step) => Knob.Check(low, high, step) switch
    {
        KnobProblem.None => null,
        KnobProblem.NotANumber => new TuningProblem("number", double.IsNaN(low) ? "low" : double.IsNaN(high) ? "high" : "step"),
        KnobProblem.Negative => new TuningProblem("negative", low < 0 ? "low" : "step"),
        KnobProblem.UpsideDown => new TuningProblem("upside-down", "high"),
        _ => new TuningProblem("step", "step"),
    };

    private static (double? Enough, bool IsWrong) Enough(TuningAim aim, string? typed, Units units)
    {
        if (aim != TuningAim.GentlestPeak || string.IsNullOrWhiteSpace(typed))
        {
            return (null, false);
        }

        double flow = Number(typed);
        return flow > 0 ? (QuantityText.Unit(QuantityKind.Flow, units == Units.Us ? "gal/min" : "L/min").ToSi(flow), false) : (null, true);
    }

    private static string Word(string? text) => new([.. (text ?? "").Trim().Where(c => !char.IsControl(c)).Take(LongestWord)]);
}

/// <summary>Settings that are lengths or masses, in SI.</summary>
internal static class KnobUnits
{
    private static readonly QuantityKind[] Kinds = [QuantityKind.Length, QuantityKind.Mass];

    /// <summary>A setting [m, kg]; null where its unit belongs to no system.</summary>
    public static double? ToSi(Knob knob, double setting)
    {
        foreach (QuantityKind kind in Kinds)
        {
            if (QuantityText.IsUnit(kind, knob.Unit))
            {
                return QuantityText.Unit(kind, knob.Unit).ToSi(setting);
            }
        }

        return null;
    }
}
