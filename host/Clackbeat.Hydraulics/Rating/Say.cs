using System.Globalization;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>Numbers in sentences, one culture, three significant digits or two where a life is told.</summary>
internal static class Say
{
    private const double PsiPa = 6894.757;

    internal static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    internal static string Pressure(SaidPressure pressure) => pressure.UncertaintyPa is { } u
        ? $"{Margin(pressure.Pa, u, 1e5)} bar ({Margin(pressure.Pa, u, PsiPa)} psi)"
        : $"{Round(pressure.Pa / 1e5)} bar ({Round(pressure.Pa / PsiPa)} psi)";

    internal static string Round(double value, int significant = 3)
    {
        if (value == 0 || !double.IsFinite(value))
        {
            return value.ToString(CultureInfo.InvariantCulture);
        }

        var digits = significant - 1 - (int)Math.Floor(Math.Log10(Math.Abs(value)));
        return digits >= 0
            ? Math.Round(value, Math.Min(digits, 15)).ToString("0.###############", CultureInfo.InvariantCulture)
            : (Math.Round(value / Math.Pow(10, -digits)) * Math.Pow(10, -digits)).ToString("0", CultureInfo.InvariantCulture);
    }

    internal static string Years(double years) => years switch
    {
        >= Fatigue.FatigueCheck.LongestLifeYears => "100 years or more",
        >= 2 => Text($"{Round(years, 2)} years"),
        >= 2.0 / 12 => Text($"{Round(years * 12, 2)} months"),
        >= 2.0 / 365 => Text($"{Round(years * 365.25, 2)} days"),
        _ => Text($"{Round(years * 8766, 2)} hours"),
    };

    private static string Margin(double pascal, double uncertaintyPa, double unitPa)
    {
        // As many decimals as the margin's own two digits ask for.
        var decimals = uncertaintyPa > 0 ? Math.Clamp(1 - (int)Math.Floor(Math.Log10(uncertaintyPa / unitPa)), 0, 4) : 2;
        var format = $"F{decimals}";
        return $"{(pascal / unitPa).ToString(format, CultureInfo.InvariantCulture)} ± "
            + (uncertaintyPa / unitPa).ToString(format, CultureInfo.InvariantCulture);
    }
}
