using Clackbeat.Records.Sources;

namespace Clackbeat.Records.Bursts;

/// <summary>A burst within a source: where its samples stand, when they were taken, and what tells it from every other.</summary>
/// <param name="FirstSample">Number of its first sample in the source, from 0.</param>
/// <param name="Samples">Its samples.</param>
/// <param name="FirstS">Time of its first sample on the source's axis [s].</param>
/// <param name="DurationS">From the first sample to the last [s].</param>
/// <param name="Start">When the first sample was taken.</param>
/// <param name="Hash">SHA-256 of its samples.</param>
public sealed record CutBurst(long FirstSample, long Samples, double FirstS, double DurationS, RecordStart Start, byte[] Hash)
{
    /// <summary>
    /// Least length of a burst that tells anything [s]. One beat of a slow ram lasts four seconds; under one second not even a
    /// fast one can be told from a jolt.
    /// </summary>
    public const double ShortestS = 1;

    /// <summary>Whether it is long enough to tell anything; what a crash left of a burst that had hardly begun isn't.</summary>
    public bool IsTelling => DurationS >= ShortestS;
}
