using Clackbeat.Twin.Model;

namespace Clackbeat.Twin.Fitting;

/// <summary>Lays beats on each other where their knock is half way up: the one instant that both trace and twin show sharply.</summary>
internal static class Alignment
{
    private const double Half = 0.5;

    /// <summary>The curve with its time 0 moved there; unmoved where it doesn't rise so far.</summary>
    internal static HeadCurve Aligned(HeadCurve curve, double plateauM)
    {
        int closure = (int)(-curve.StartS / curve.StepS);
        int farthest = Math.Max(2, closure / 2);
        for (int away = 0; away < farthest; away++)
        {
            foreach (int i in new[] { closure - away, closure + away })
            {
                if (i >= 0 && i + 1 < curve.HeadM.Count && curve.HeadM[i] < Half * plateauM && curve.HeadM[i + 1] >= Half * plateauM)
                {
                    double share = ((Half * plateauM) - curve.HeadM[i]) / (curve.HeadM[i + 1] - curve.HeadM[i]);
                    return curve with { StartS = -(i + share) * curve.StepS };
                }
            }
        }

        return curve;
    }
}
