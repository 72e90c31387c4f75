using System.Globalization;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>Numbers in sentences, one culture, three significant digits.</summary>
internal static class Say
{
    private const double PsiPa = 6894.757;

    internal static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    internal static string Pressure(double pascal) =>
        Text($"{Round(pascal / 1e5)} bar ({Round(pascal / PsiPa)} psi)");

    internal static string Round(double value)
    {
        if (value == 0 || !double.IsFinite(value))
        {
            return value.ToString(CultureInfo.InvariantCulture);
        }

        var digits = 2 - (int)Math.Floor(Math.Log10(Math.Abs(value)));
        return digits >= 0
            ? Math.Round(value, Math.Min(digits, 15)).ToString("0.###############", CultureInfo.InvariantCulture)
            : (Math.Round(value / Math.Pow(10, -digits)) * Math.Pow(10, -digits)).ToString("0", CultureInfo.InvariantCulture);
    }

    internal static string Years(double years) => years switch
    {
        >= Fatigue.FatigueCheck.LongestLifeYears => "100 years or more",
        >= 2 => Text($"{Round(years)} years"),
        >= 2.0 / 12 => Text($"{Round(years * 12)} months"),
        >= 2.0 / 365 => Text($"{Round(years * 365.25)} days"),
        _ => Text($"{Round(years * 8766)} hours"),
    };
}
