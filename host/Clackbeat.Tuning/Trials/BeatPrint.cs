using Clackbeat.Signal.Beats;

namespace Clackbeat.Tuning.Trials;

/// <summary>
/// Intervals and peaks of a recording's first beats. Beats of one ram scatter by more than the digits kept here, so that twelve
/// in a row that agree are one recording: copied, cut, or exported to a table.
/// </summary>
/// <param name="IntervalsMs">Intervals [ms], kept to 0.1 ms.</param>
/// <param name="PeaksKpa">Largest samples [kPa], kept to 0.01 kPa; as many.</param>
public sealed record BeatPrint(IReadOnlyList<double> IntervalsMs, IReadOnlyList<double> PeaksKpa)
{
    private const int MostBeats = 200;
    private const int InARow = 12;

    // The digits kept, and what a table's own digits may add.
    private const double SameMs = 0.21;
    private const double SameKpa = 0.021;

    /// <summary>No beat.</summary>
    public static BeatPrint Empty { get; } = new([], []);

    /// <summary>As many peaks as intervals.</summary>
    public bool IsSound => IntervalsMs.Count == PeaksKpa.Count;

    /// <summary>Takes it from beats.</summary>
    public static BeatPrint Of(IReadOnlyList<Beat> beats)
    {
        ArgumentNullException.ThrowIfNull(beats);
        Beat[] first = [.. beats.Take(MostBeats)];
        return new BeatPrint([.. first.Select(b => Math.Round(1000 * b.IntervalS, 1))], [.. first.Select(b => Math.Round(b.PeakPa / 1000, 2))]);
    }

    /// <summary>Whether both are of one recording: twelve beats in a row agree, or all where there are fewer.</summary>
    public bool IsOfSameRecording(BeatPrint other)
    {
        ArgumentNullException.ThrowIfNull(other);
        int needed = Math.Min(InARow, Math.Min(IntervalsMs.Count, other.IntervalsMs.Count));
        return needed > 0 && Enumerable.Range(1 - other.IntervalsMs.Count, IntervalsMs.Count + other.IntervalsMs.Count - 1)
            .Any(shift => LongestRun(other, shift) >= needed);
    }

    private int LongestRun(BeatPrint other, int shift)
    {
        (int run, int longest) = (0, 0);
        for (int i = Math.Max(0, shift); i < IntervalsMs.Count && i - shift < other.IntervalsMs.Count; i++)
        {
            bool agrees = Math.Abs(IntervalsMs[i] - other.IntervalsMs[i - shift]) <= SameMs
                && Math.Abs(PeaksKpa[i] - other.PeaksKpa[i - shift]) <= SameKpa;
            run = agrees ? run + 1 : 0;
            longest = Math.Max(longest, run);
        }

        return longest;
    }
}
