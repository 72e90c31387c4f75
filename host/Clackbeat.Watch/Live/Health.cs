namespace Clackbeat.Watch.Live;

/// <summary>How well the samples come: what a keeper must know before believing a figure.</summary>
/// <param name="RateHz">Samples a second over the newest seconds [Hz]; null while unknown.</param>
/// <param name="LostSamples">Samples lost on the way since the watch began.</param>
/// <param name="SkippedSamples">Samples the logger itself came too late for.</param>
/// <param name="Restarts">Times the logger restarted.</param>
/// <param name="ClippedSamples">Samples at the upper end of the sensor's range, of the last minute.</param>
/// <param name="GapS">Time without samples in the last minute [s].</param>
public sealed record Health(
    double? RateHz, long LostSamples, long SkippedSamples, int Restarts, long ClippedSamples, double GapS);

/// <summary>What a source has counted itself.</summary>
/// <param name="LostSamples">Samples lost on the way.</param>
/// <param name="SkippedSamples">Samples the logger came too late for.</param>
/// <param name="Restarts">Times the logger restarted.</param>
public readonly record struct SourceCounts(long LostSamples, long SkippedSamples, int Restarts);
