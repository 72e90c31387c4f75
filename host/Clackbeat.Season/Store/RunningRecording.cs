namespace Clackbeat.Season.Store;

/// <summary>
/// Knows the beginning of a burst again. A recording that is logged while it runs gives the first part of its last burst; logged
/// again it gives the whole, whose hash is another.
/// </summary>
internal static class RunningRecording
{
    /// <summary>The clocks of a recording are tied together better the longer it is; no two bursts of a ram begin within a second.</summary>
    public const long SameStartUs = 1_000_000;

    // What the last beats of the shorter one are, its end decides.
    private const int Unsettled = 2;

    // Levels that are learnt over the longer burst may move a closure by a sample or two.
    private const double SameClosureS = 0.005;

    /// <summary>Whether one of two bursts is the beginning of the other.</summary>
    /// <param name="source">Where the one came from.</param>
    /// <param name="beats">Its beats.</param>
    /// <param name="otherSource">Where the other came from.</param>
    /// <param name="otherBeats">Its beats.</param>
    public static bool IsOne(string source, IReadOnlyList<SeasonBeat> beats, string otherSource, IReadOnlyList<SeasonBeat> otherBeats)
    {
        if (Path.GetFileName(source) != Path.GetFileName(otherSource))
        {
            return false;
        }

        int shared = Math.Min(beats.Count, otherBeats.Count) - Unsettled;
        return shared < 1
            ? beats.Count == 0 && otherBeats.Count == 0
            : Enumerable.Range(0, shared).All(i => Math.Abs(beats[i].ClosureS - otherBeats[i].ClosureS) <= SameClosureS);
    }
}
