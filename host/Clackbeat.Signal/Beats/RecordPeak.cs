
namespace Clackbeat.Signal.Beats;

/// <summary>
/// The estimated peak of a record's hard beats. One beat shows its peak only where a sample happens to fall, but beats are alike and
/// samples fall at another phase in each: together they sample the spike much finer than the clock does (equivalent-time
/// sampling, as in an oscilloscope; IEEE Std 181).
/// </summary>
/// <remarks>
/// With n beats at random phases the chance that none falls within a share d of a step beside the top is (1 − d)^n. What is
/// left above the largest sample is therefore, in 95 of 100 cases, at most d = 1 − 0.05^(1/n) of what one step could hide.
/// The sensor hides some more, in every beat alike: one of first order with time constant τ reads y where the pressure is
/// y + τ dy/dt, so on the steepest rise towards a peak it lags by τ times that rise.
/// </remarks>
internal sealed record RecordPeak
{
    private const double Doubt = 0.05;
    private const double HardShare = 0.95;

    // A first-order answer takes ln 9 time constants from 10 to 90 %.
    private const double RiseOverTimeConstant = 2.1972;

    /// <summary>Middle of the interval in which the peak lies that one beat in twenty exceeds [Pa].</summary>
    public required double MiddlePa { get; init; }

    /// <summary>Half the width of that interval, a bound [Pa].</summary>
    public required double HalfWidthPa { get; init; }

    /// <summary>Upper end of that interval [Pa].</summary>
    public required double HighestPa { get; init; }

    /// <summary>Smallest largest-sample among the beats that may have been hard ones [Pa].</summary>
    public required double HardFromPa { get; init; }

    /// <summary>Works it out.</summary>
    /// <param name="beats">The beats, each with its own interval; at least one.</param>
    /// <param name="stepS">Usual step between samples [s].</param>
    /// <param name="responseS">Time the sensor takes from 10 to 90 % of a step [s].</param>
    public static RecordPeak Of(IReadOnlyList<Beat> beats, double stepS, double responseS)
    {
        double[] largest = Summaries.Sorted(beats, b => b.PeakPa);
        double surePa = Summaries.Quantile(largest, HardShare);
        // A beat that even at its own upper end stays below the hard ones tells nothing of them.
        List<Beat> hard = [.. beats.Where(b => b.PeakEstimatePa + b.PeakUncertaintyPa >= surePa)];
        double hidden = Summaries.Quantile(Summaries.Sorted(beats, b => b.PeakEstimatePa + b.PeakUncertaintyPa - b.PeakPa), HardShare);
        double left = 1 - Math.Pow(Doubt, 1 / Math.Max(1, hard.Count * Shuffled(beats, stepS)));
        double lag = stepS > 0 ? responseS / RiseOverTimeConstant / stepS : 0;
        double highestPa = Math.Max(surePa, largest[^1] + ((left + lag) * hidden));
        return new RecordPeak
        {
            MiddlePa = 0.5 * (surePa + highestPa),
            HalfWidthPa = 0.5 * (highestPa - surePa),
            HighestPa = highestPa,
            HardFromPa = hard.Min(b => b.PeakPa),
        };
    }

    /// <summary>The beats with what they tell of each other: none hides more than the hard ones can.</summary>
    public IReadOnlyList<Beat> Settle(IReadOnlyList<Beat> beats) =>
    [
        .. beats.Select(b =>
        {
            double highestPa = Math.Max(b.PeakPa, HighestPa);
            return b with { PeakEstimatePa = 0.5 * (b.PeakPa + highestPa), PeakUncertaintyPa = 0.5 * (highestPa - b.PeakPa) };
        }),
    ];

    // Intervals that scatter by a step or more put each beat at a phase of its own; a ram that beats like a clock may show the
    // same phase again and again.
    private static double Shuffled(IReadOnlyList<Beat> beats, double stepS)
    {
        if (beats.Count < 3 || stepS <= 0)
        {
            return 1.0 / beats.Count;
        }

        double[] intervals = [.. beats.Select(b => b.IntervalS)];
        return Math.Min(1, MathNet.Numerics.Statistics.ArrayStatistics.StandardDeviation(intervals) / stepS);
    }
}
