namespace Clackbeat.Checks;

/// <summary>Published figures come in the units of their place and time; NIST SP 811 (2008), Appendix B.</summary>
internal static class Units
{
    internal const double FootM = 0.3048;
    internal const double InchM = 0.0254;
    internal const double PsiPa = 6894.757293168;
    internal const double BarPa = 1e5;

    internal static double FahrenheitC(double fahrenheit) => (fahrenheit - 32) / 1.8;
}
