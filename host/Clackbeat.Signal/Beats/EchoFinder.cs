using Clackbeat.Signal.Figures;

namespace Clackbeat.Signal.Beats;

/// <summary>
/// The pipe period from the echoes of the typical beat: steps of the plateau, the fall and the dips of the open phase all
/// stand at whole multiples of 2L/a after the closure. A comb of such instants is laid over the strength of the beat's
/// jumps; the period that gathers most wins. The square root of the number of teeth keeps half and double periods in place.
/// </summary>
internal static class EchoFinder
{
    private const double Grid = 1.01;
    private const double Fastest = 0.75;
    private const double Slowest = 8;
    private const double LongestShare = 0.85;
    private const double LongestPeriods = 14;
    private const double ToleranceShare = 0.012;
    private const double HalfWidthS = 0.0015;
    private const int LeastTeeth = 2;

    // The fall at the end of the delivery is a hundred times any echo, and no surer evidence of one.
    private const double MostJumpLog = 3;

    // The site's own period is looked for so far to either side of where the site puts it.
    private const double NearSite = 1.08;

    /// <summary>
    /// The period found [s], how far it stands out over the other periods, in their deviations, and how far the best period
    /// near the site's falls short of it, in the same; null without any.
    /// </summary>
    /// <param name="beat">The typical beat, time 0 at closure.</param>
    /// <param name="sitePeriodS">What the site leads to expect [s].</param>
    /// <param name="intervalS">Median interval [s].</param>
    public static (double PeriodS, double Strength, double SiteShort)? Find(TraceCurve beat, double sitePeriodS, double intervalS)
    {
        if (beat.TimeS.Count < 50 || beat.TimeS[^1] < 0.5 * intervalS)
        {
            return null;
        }

        double stepS = beat.TimeS[1] - beat.TimeS[0];
        double lastS = Math.Min(LongestShare * beat.TimeS[^1], LongestPeriods * sitePeriodS);
        double[] jumps = JumpsOf(beat, stepS, lastS);
        var scores = new List<(double PeriodS, double Score)>();
        for (double periodS = Fastest * sitePeriodS; periodS < Math.Min(Slowest * sitePeriodS, lastS / LeastTeeth); periodS *= Grid)
        {
            scores.Add((periodS, Score(jumps, stepS, periodS, lastS)));
        }

        if (scores.Count < 10)
        {
            return null;
        }

        double mean = scores.Average(s => s.Score);
        double deviation = Math.Sqrt(scores.Average(s => (s.Score - mean) * (s.Score - mean)));
        (double best, double score) = scores.MaxBy(s => s.Score);
        double near = scores.Where(s => s.PeriodS > sitePeriodS / NearSite && s.PeriodS < sitePeriodS * NearSite).Max(s => s.Score);
        deviation = Math.Max(deviation, 1e-12);
        return (best, (score - mean) / deviation, (score - near) / deviation);
    }

    /// <summary>Strength of the pressure step at each step after closure, less the usual one: logarithmic, so that the fall doesn't drown all else.</summary>
    private static double[] JumpsOf(TraceCurve beat, double stepS, double lastS)
    {
        int zero = (int)Math.Round(-beat.TimeS[0] / stepS);
        int reach = Math.Max(1, (int)Math.Round(HalfWidthS / stepS));
        int count = Math.Min((int)(lastS / stepS), beat.TimeS.Count - zero - reach - 1);
        double[] jumps = new double[Math.Max(0, count)];
        for (int i = reach; i < jumps.Length; i++)
        {
            jumps[i] = Math.Abs(beat.PressurePa[zero + i + reach] - beat.PressurePa[zero + i - reach]);
        }

        double[] sorted = [.. jumps.Order()];
        double usual = Math.Max(sorted.Length > 0 ? sorted[sorted.Length / 2] : 0, 1);
        for (int i = 0; i < jumps.Length; i++)
        {
            jumps[i] = Math.Min(MostJumpLog, Math.Log(1 + (jumps[i] / (4 * usual))));
        }

        double mean = jumps.Length > 0 ? jumps.Average() : 0;
        for (int i = 0; i < jumps.Length; i++)
        {
            jumps[i] -= mean;
        }

        return jumps;
    }

    private static double Score(double[] jumps, double stepS, double periodS, double lastS)
    {
        int teeth = (int)(lastS / periodS);
        double sum = 0;
        for (int tooth = 1; tooth <= teeth; tooth++)
        {
            double atS = tooth * periodS;
            int half = (int)Math.Ceiling(((ToleranceShare * atS) + 5e-4) / stepS);
            int at = (int)Math.Round(atS / stepS);
            double strongest = double.NegativeInfinity;
            for (int i = Math.Max(0, at - half); i <= Math.Min(jumps.Length - 1, at + half); i++)
            {
                strongest = Math.Max(strongest, jumps[i]);
            }

            sum += double.IsFinite(strongest) ? strongest : 0;
        }

        return sum / Math.Sqrt(teeth);
    }
}
