namespace Clackbeat.Signal.Flow;

/// <summary>A stretch of an open phase: sample numbers [From, To).</summary>
internal readonly record struct Stretch(int From, int To);

/// <summary>
/// The waste valve as its own flow meter: fully open it obeys h = k v|v| with one constant k. Open phases are cut into
/// stretches of whole pipe periods, over which the waves left by the last beat average out.
/// </summary>
internal static class OpenPhaseLaw
{
    // A stretch is at least this share of the open phase, so that noise averages and the fit stays small.
    private const double SmallestShare = 1.0 / 30;

    /// <summary>
    /// Part of the open phase after which the plug has fallen open on all rams tried; how much sooner it has on this
    /// one, <see cref="OpeningFinder"/> tells.
    /// </summary>
    public const double OpenedShare = 0.12;

    // Samples taken from the open phase before a window start later than those after it, since that window's own recoil
    // and lull are only supposed to be as long as the usual ones.
    private const double RecoilAllowance = 0.08;

    // The plug starts to rise before it shuts; there k is not constant.
    private const double ClosingShare = 0.06;
    private const double ClosingLeastS = 0.03;

    /// <summary>Stretches of the open phases before and after the delivery of a window.</summary>
    /// <param name="window">The window.</param>
    /// <param name="periodS">Pipe period 2L/a [s].</param>
    /// <param name="openedShare">Part of the open phase after which the valve is fully open.</param>
    public static List<Stretch> Stretches(FlowWindow window, double periodS, double openedShare)
    {
        Beats.Beat beat = window.Beat;
        var stretches = new List<Stretch>();
        double beforeS = window.TimeS[0] + beat.RecoilLengthS + ((RecoilAllowance + openedShare) * beat.OpenLengthS);
        Cut(window, beforeS, beat.ClosureS - ClosingS(beat), periodS, stretches);
        (double fromS, double toS) = FullyOpen(beat, openedShare);
        Cut(window, fromS, toS, periodS, stretches);
        return stretches;
    }

    /// <summary>From when to when the waste valve stands fully open before the next closure [s].</summary>
    public static (double FromS, double ToS) FullyOpen(Beats.Beat beat, double openedShare) =>
        (beat.OpenStartS + (openedShare * beat.OpenLengthS), beat.NextClosureS - ClosingS(beat));

    private static double ClosingS(Beats.Beat beat) =>
        Math.Max(ClosingShare * beat.OpenLengthS, Math.Min(ClosingLeastS, 0.2 * beat.OpenLengthS));

    private static void Cut(FlowWindow window, double fromS, double toS, double periodS, List<Stretch> stretches)
    {
        double spanS = toS - fromS;
        if (spanS <= 0)
        {
            return;
        }

        double leastS = SmallestShare * spanS;
        double lengthS = periodS * Math.Max(1, Math.Ceiling(leastS / periodS));
        int count = Math.Max(1, (int)(spanS / lengthS));
        for (int i = count; i > 0; i--)
        {
            int from = window.At(toS - (i * lengthS));
            int to = window.At(toS - ((i - 1) * lengthS));
            if (to - from >= 2)
            {
                stretches.Add(new Stretch(from, to));
            }
        }
    }

    /// <summary>Mean head, mean velocity and mean square of the velocity's waves over a stretch.</summary>
    public static (double HeadM, double Velocity, double Waves) Mean(
        FlowWindow window, ReadOnlySpan<double> velocity, Stretch stretch)
    {
        (double head, double mean, double square) = (0, 0, 0);
        for (int i = stretch.From; i < stretch.To; i++)
        {
            head += window.HeadM[i];
            mean += velocity[i];
            square += velocity[i] * velocity[i];
        }

        int count = stretch.To - stretch.From;
        mean /= count;
        return (head / count, mean, Math.Max(0, (square / count) - (mean * mean)));
    }
}
