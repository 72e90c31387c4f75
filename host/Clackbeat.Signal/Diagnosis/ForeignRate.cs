using Clackbeat.Signal.Beats;
using Clackbeat.Site.Facts;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>
/// A rate in the record that is not the ram's own: intervals or plateau swing with a period of their own, as beside another ram on the
/// same tank or main. Found by the normalised periodogram of unevenly spaced data (J. D. Scargle, Astrophys. J. 263 (1982) 835). A beat
/// samples the other ram once, so only the difference of the two rates is told.
/// </summary>
internal static class ForeignRate
{
    private const int LeastBeats = 20;

    // The search grows with the square of the beats: of an hour the newest minutes tell.
    private const int MostBeats = 500;
    private const double LeastCycles = 3;
    private const double HighestPerBeat = 0.45;
    private const int Oversampling = 4;

    // Chance that noise alone makes such a line, over all frequencies and both series.
    private const double FalseAlarm = 1e-4;

    // Of the scatter from beat to beat; and of the level itself.
    private const double LeastExplained = 0.4;
    private const double LeastAmplitude = 0.002;

    // A ram may repeat itself every third, fourth or fifth beat: a rhythm of its own valve.
    private static readonly double[] OwnRhythms = [1 / 3.0, 1 / 4.0, 1 / 5.0, 2 / 5.0];

    /// <summary>The foreign rate; null where the record shows none.</summary>
    /// <param name="beats">Beats of the steady part in order; of a long record the newest 500 are read.</param>
    public static Fact? Find(IReadOnlyList<Beat> beats)
    {
        if (beats.Count < LeastBeats)
        {
            return null;
        }

        Beat[] newest = [.. beats.TakeLast(MostBeats)];
        double[] times = [.. newest.Select(b => b.ClosureS)];
        Line[] lines =
        [
            .. new Func<Beat, double>[] { b => b.DeliveryPa, b => b.IntervalS }
                .Select(figure => Strongest(times, [.. newest.Select(figure)])).OfType<Line>(),
        ];
        if (lines.Length == 0)
        {
            return null;
        }

        Line found = lines.MaxBy(l => l.Explained);
        double own = (newest.Length - 1) / (times[^1] - times[0]);
        return Fact.Of(
            "foreign-rate",
            ("swing_s", 1 / found.Hz), ("slower_per_min", 60 * (own - found.Hz)), ("faster_per_min", 60 * (own + found.Hz)));
    }

    private static Line? Strongest(double[] times, double[] values)
    {
        double level = Math.Abs(values.Median());
        double[] rest = Rest(times, values);
        double variance = rest.Select(r => r * r).Average();
        double lengthS = times[^1] - times[0];
        double intervalS = lengthS / (times.Length - 1);
        (double hz, double power) = (0, 0);
        int steps = (int)(Oversampling * lengthS * HighestPerBeat / intervalS);
        for (int i = (int)(Oversampling * LeastCycles); i <= steps; i++)
        {
            double at = i / (Oversampling * lengthS);
            double found = Power(times, rest, 2 * Math.PI * at) / variance;
            (hz, power) = found > power ? (at, found) : (hz, power);
        }

        double chance = 1 - Math.Pow(1 - Math.Exp(-power), times.Length);
        double explained = 2 * power / times.Length;
        bool isOwn = OwnRhythms.Any(r => Math.Abs((hz * intervalS) - r) * times.Length < 1);
        return chance < FalseAlarm && explained > LeastExplained && !isOwn && Math.Sqrt(2 * variance * explained) > LeastAmplitude * level
            ? new Line(hz, explained)
            : null;
    }

    /// <summary>Scargle's power at an angular frequency, before it is divided by the variance.</summary>
    private static double Power(double[] times, double[] rest, double omega)
    {
        (double sin2, double cos2) = (0, 0);
        foreach (double t in times)
        {
            sin2 += Math.Sin(2 * omega * t);
            cos2 += Math.Cos(2 * omega * t);
        }

        double tau = Math.Atan2(sin2, cos2) / (2 * omega);
        (double c, double cc, double s, double ss) = (0, 0, 0, 0);
        for (int i = 0; i < times.Length; i++)
        {
            (double sin, double cos) = Math.SinCos(omega * (times[i] - tau));
            c += rest[i] * cos;
            cc += cos * cos;
            s += rest[i] * sin;
            ss += sin * sin;
        }

        return 0.5 * ((c * c / cc) + (s * s / ss));
    }

    /// <summary>What is left of a series beside its straight line, odd beats drawn in to three deviations.</summary>
    private static double[] Rest(double[] times, double[] values)
    {
        (double a, double b) = MathNet.Numerics.Fit.Line(times, values);
        double[] rest = [.. values.Select((v, i) => v - a - (b * times[i]))];
        double limit = 3 * rest.InterquartileRange() / 1.35;
        return [.. rest.Select(r => Math.Clamp(r, -limit, limit))];
    }

    private readonly record struct Line(double Hz, double Explained);
}
