using Clackbeat.Signal.Figures;
using Clackbeat.Twin.Model;

namespace Clackbeat.Twin.Fitting;

/// <summary>
/// How far a cycle of the twin is from the measured one, in standard deviations: figures first, then the curve around the knock, over
/// delivery and recoil. What the model is expected to miss is part of each deviation.
/// </summary>
internal sealed class Misfit(MeasuredCycle measured)
{
    // What a twin of the right ram misses by its make: set by judgement, and held by virtual rams it was not set on (docs/twin.md).
    private const double IntervalShare = 0.008;
    private const double VelocityShare = 0.05;
    private const double VolumeShare = 0.06;
    private const double PlateauShare = 0.01;
    private const double PlateauFrom = 0.2;
    private const double PlateauTo = 0.8;
    private const double PeakShare = 0.2;
    private const double CurveShare = 0.06;

    // Neighbouring points of a curve are wrong together: a whole curve counts as so many independent points.
    private const double CurveWorth = 12;
    private const double KnockWorth = 6;
    private const int CurvePoints = 80;
    private const int KnockPoints = 24;

    // The rise before the knock shows how the gap closes.
    private const double KnockS = 0.06;
    private const double KnockShare = 0.12;
    private const double KnockNoiseM = 0.05;

    /// <summary>A ram that stands is this far from one that beats, in each residual.</summary>
    private const double Standing = 6;

    /// <summary>Number of residuals.</summary>
    internal int Count => Figures(null).Count + CurvePoints + KnockPoints;

    /// <summary>How large the sum of squares is expected to be: as many as independent points.</summary>
    internal double Worth => Figures(null).Count + CurveWorth + KnockWorth;

    /// <summary>All residuals; null is a ram that stands.</summary>
    internal double[] Of(Cycle? cycle)
    {
        List<double> all = Figures(cycle);
        if (cycle is null)
        {
            all.AddRange(Enumerable.Repeat(0.0, CurvePoints + KnockPoints));
            return [.. all];
        }

        HeadCurve head = Aligned(cycle);
        double endS = Math.Min(measured.OpenStartS, 0.8 * measured.IntervalS);
        for (int i = 0; i < CurvePoints; i++)
        {
            double t = endS * (i + 1) / CurvePoints;
            all.Add(Math.Sqrt(CurveWorth / CurvePoints) * Soft((head.At(t) - measured.Head.At(t)) / (CurveShare * measured.PlateauM)));
        }

        double span = Math.Min(KnockS, 0.1 * measured.IntervalS);
        for (int i = 0; i < KnockPoints; i++)
        {
            double t = -span * (i + 1) / KnockPoints;
            double h = measured.Head.At(t);
            double spread = KnockNoiseM + (KnockShare * Math.Max(0, h));
            all.Add(Math.Sqrt(KnockWorth / KnockPoints) * Soft((head.At(t) - h) / spread));
        }

        return [.. all];
    }

    private List<double> Figures(Cycle? cycle)
    {
        var all = new List<double>
        {
            Ratio(cycle?.IntervalS, measured.IntervalS, IntervalShare),
            Ratio(cycle?.PeakM, measured.PeakM, PeakShare),
            Ratio(cycle is null ? null : PlateauM(Aligned(cycle)), PlateauM(measured.Head), PlateauShare),
        };
        Add(cycle?.ClosingVelocityMPerS, measured.ClosingVelocityMPerS, VelocityShare);
        Add(cycle?.WasteM3, measured.WasteM3, VolumeShare);
        Add(cycle?.DeliveredM3, measured.DeliveredM3, VolumeShare);
        return all;

        void Add(double? value, Figure? figure, double share)
        {
            if (figure is { Value: > 0 } f)
            {
                all.Add(Ratio(value, f.Value, Math.Sqrt((share * share) + Math.Pow(f.StandardU / f.Value, 2))));
            }
        }
    }

    private HeadCurve Aligned(Cycle cycle) => Alignment.Aligned(cycle.Head, cycle.PlateauM ?? measured.PlateauM);

    // The same part of either curve, so that what waves and ends do to the mean is in both.
    private double PlateauM(HeadCurve head) => Math.Max(1e-3, head.Mean(PlateauFrom * measured.DeliveryEndS, PlateauTo * measured.DeliveryEndS));

    private static double Ratio(double? twin, double measured, double spread) =>
        twin is not { } t ? Standing : Math.Log(Math.Max(t, 1e-3 * measured) / measured) / spread;

    // Pseudo-Huber: single points that the model can't reach pull no harder than a few deviations.
    private static double Soft(double r) => Math.Sign(r) * Math.Sqrt(2 * (Math.Sqrt(1 + (r * r)) - 1));
}
