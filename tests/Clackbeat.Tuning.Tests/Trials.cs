using Clackbeat.Hydraulics.Rating;
using Clackbeat.Signal.Figures;
using Clackbeat.Tuning.Trials;

namespace Clackbeat.Tuning.Tests;

/// <summary>Trials and sessions made up for the tests.</summary>
internal static class Trials
{
    public static Knob Stroke { get; } = Knob.Parse("stroke 4 mm to 12 mm");

    public static TuningSession Empty(TuningAim aim = TuningAim.MostDelivered) => new() { Ram = "a ram of the tests", Knob = Stroke, Aim = aim };

    /// <summary>Trials that deliver given multiples of 6 L/min, their stretches scattered by 1.5 %.</summary>
    public static TuningSession Session(double[] multiples, Random random, int stretches = 3)
    {
        TuningSession session = Empty();
        for (int i = 0; i < multiples.Length; i++)
        {
            session = session.With(Of(4 + i, 1e-4 * multiples[i], 0.5, 3e5, random, 0.015, stretches: stretches));
        }

        return session;
    }

    /// <summary>A twin's curve over the share of the range: the expected logarithm of all figures, and how one unsure parameter bends it.</summary>
    public static TwinCurve Twin(Func<double, double> expected, Func<double, double> bend) => new([.. Enumerable.Range(0, 11).Select(i =>
    {
        double share = i / 10.0;
        LogRatios Of(double v) => new(v, v, v);
        return new TwinCurvePoint(
            Stroke.Lowest + (share * Stroke.Span), Of(expected(share)), [Of(expected(share) + bend(share)), Of(expected(share))]);
    })]);

    /// <summary>A trial whose stretches scatter; its figures are the means of those, as a measured trial's are about.</summary>
    public static Trial Of(
        double setting, double deliveredM3PerS, double efficiency, double peakPa, Random random, double scatter,
        double? allowablePa = null, int stretches = 3)
    {
        Stretch[] parts = [.. Enumerable.Range(0, stretches).Select(_ => new Stretch(
            deliveredM3PerS * Math.Exp(scatter * Gauss(random)), efficiency * Math.Exp(scatter * Gauss(random)), peakPa * Math.Exp(scatter * Gauss(random))))];
        return new Trial
        {
            Setting = setting,
            Works = true,
            Verdict = PipeVerdict.Within,
            DeliveredM3PerS = Around(parts.Average(p => p.DeliveredM3PerS)),
            WasteM3PerS = Around(deliveredM3PerS / efficiency),
            Efficiency = Around(parts.Average(p => p.Efficiency)),
            PeakPa = Around(parts.Average(p => p.PeakPa)),
            AllowablePa = allowablePa,
            Stretches = parts,
        };
    }

    private static Figure Around(double value) => new(value, 0.08 * value);

    private static double Gauss(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
