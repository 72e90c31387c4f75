namespace Clackbeat.Records.Samples;

/// <summary>What somebody did at the ram while it was recorded.</summary>
/// <param name="TimeS">When, since the record's first sample [s].</param>
/// <param name="Words">What, in the keeper's words.</param>
public readonly record struct RecordMark(double TimeS, string Words);
