using Clackbeat.Signal.Analysis;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>The sensor's noise in the calm of the open phase, from second differences: what the ram itself does drops out.</summary>
internal static class SampleNoise
{
    private const double FromShare = 0.5;
    private const double ToShare = 0.8;

    /// <summary>Standard deviation of the noise [Pa], by the median so that events don't count; 0 without samples.</summary>
    public static double Of(IReadOnlyList<TraceCurve> curves)
    {
        var seconds = new List<double>();
        foreach (TraceCurve curve in curves)
        {
            int last = curve.TimeS.Count - 1;
            double endS = last > 0 ? curve.TimeS[last] : 0;
            for (int i = 1; i < last; i++)
            {
                if (curve.TimeS[i] > FromShare * endS && curve.TimeS[i] < ToShare * endS)
                {
                    seconds.Add(Math.Abs(curve.PressurePa[i - 1] - (2 * curve.PressurePa[i]) + curve.PressurePa[i + 1]));
                }
            }
        }

        seconds.Sort();

        // Variance of x(i−1) − 2x(i) + x(i+1) is six times that of independent x; 1.4826 turns a median deviation into a standard one.
        return seconds.Count == 0 ? 0 : 1.4826 * seconds[seconds.Count / 2] / Math.Sqrt(6);
    }
}
