using Clackbeat.Hydraulics.Water;
using Clackbeat.Words;

namespace Clackbeat.Report.Wording;

/// <summary>Numbers in sentences, one culture, three significant digits or two where a life is told.</summary>
internal static class Written
{
    internal static string Pressure(SaidPressure pressure) => pressure.UncertaintyPa is { } u
        ? Phrases.Say("rating.bar-psi", ("bar", Digits.WithMargin(pressure.Pa / 1e5, u / 1e5)), ("psi", Digits.WithMargin(pressure.Pa / Constants.PsiPa, u / Constants.PsiPa)))
        : Phrases.Say("rating.bar-psi", ("bar", Round(pressure.Pa / 1e5)), ("psi", Round(pressure.Pa / Constants.PsiPa)));

    internal static string Round(double value, int significant = 3)
    {
        if (value == 0 || !double.IsFinite(value))
        {
            return value.ToString(Catalogue.Current.Language.Numbers);
        }

        int digits = significant - 1 - (int)Math.Floor(Math.Log10(Math.Abs(value)));
        return digits >= 0
            ? Math.Round(value, Math.Min(digits, 15)).ToString("0.###############", Catalogue.Current.Language.Numbers)
            : (Math.Round(value / Math.Pow(10, -digits)) * Math.Pow(10, -digits)).ToString("0", Catalogue.Current.Language.Numbers);
    }

    internal static string Years(double years) => years switch
    {
        >= Hydraulics.Rating.FatigueCheck.LongestLifeYears => Phrases.Say("rating.100-years-more"),
        >= 2 => Phrases.Say("rating.years", ("years", Round(years, 2))),
        >= 2.0 / 12 => Phrases.Say("rating.months", ("months", Round(years * 12, 2))),
        >= 2.0 / 365 => Phrases.Say("rating.days", ("days", Round(years * 365.25, 2))),
        _ => Phrases.Say("rating.hours", ("hours", Round(years * 8766, 2))),
    };
}
