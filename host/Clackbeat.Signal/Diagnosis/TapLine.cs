using Clackbeat.Signal.Figures;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>
/// Air in the tap line: the sensor hangs on a water column with a bubble behind it and swings after every jolt. With the
/// waste valve open water leaves the body freely and nothing in the ram can go on swinging; the reading that does so
/// swings by itself. Taken for the ring of the drive pipe (4L/a) such a swing can imply an absurd wave speed: a published
/// case gave 46 m/s where over 500 was expected (EPA P3 report on the Cornell AguaClara ram).
/// </summary>
internal static class TapLine
{
    // Real bodies ring at 16 to 20 ms for a few swings (Cornell AguaClara data); a bubble in a tap line is slower.
    private const double LeastPeriodS = 0.03;

    // A valve's bounce is over after one or two swings, each a fraction of the last.
    private const int LeastSwings = 4;
    private const double LeastSize = 0.08;
    private const double MostUneven = 0.3;
    private const double LeastAgreeing = 0.6;

    /// <summary>Period of the swings after most deliveries [s]; null when there are none.</summary>
    public static double? SwingS(DiagnosisInput input)
    {
        if (input.Signature is not { } signature)
        {
            return null;
        }

        var periods = new List<double>();
        foreach (TraceCurve curve in input.Curves)
        {
            if (SwingS(curve, signature) is { } periodS)
            {
                periods.Add(periodS);
            }
        }

        if (periods.Count < LeastAgreeing * input.Curves.Count || periods.Count == 0)
        {
            return null;
        }

        double middle = periods.Median();
        return middle > LeastPeriodS ? middle : null;
    }

    /// <summary>Period of the even swings about the open level after a delivery [s].</summary>
    private static double? SwingS(TraceCurve curve, Signature signature)
    {
        double sizePa = LeastSize * (signature.DeliveryPa - signature.OpenPa);
        var crossings = new List<double>();
        double side = 1;
        double far = 0;
        for (int i = 0; i < curve.TimeS.Count; i++)
        {
            if (curve.TimeS[i] < 0.5 * signature.DeliveryEndS)
            {
                continue;
            }

            double over = curve.PressurePa[i] - signature.OpenPa;
            far = Math.Max(far, over * side);
            if (over * side < 0 && far > sizePa)
            {
                crossings.Add(curve.TimeS[i]);
                (side, far) = (-side, 0);
            }
        }

        if (crossings.Count < LeastSwings)
        {
            return null;
        }

        double[] halves = [.. crossings.Zip(crossings.Skip(1), (a, b) => b - a).Take(2 * LeastSwings)];
        double mean = halves.Average();
        return halves.All(h => Math.Abs(h - mean) < MostUneven * mean) ? 2 * mean : null;
    }
}
