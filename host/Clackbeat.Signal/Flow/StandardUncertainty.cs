namespace Clackbeat.Signal.Flow;

/// <summary>Independent standard uncertainties together (JCGM 100:2008 §5.1).</summary>
internal static class StandardUncertainty
{
    /// <summary>Root of the sum of squares.</summary>
    public static double Combine(double a, double b, double c = 0) => Math.Sqrt((a * a) + (b * b) + (c * c));
}
