namespace Clackbeat.Recording.Capture;

/// <summary>All losses of one cause.</summary>
/// <param name="Records">How many records.</param>
/// <param name="Samples">Samples missing.</param>
/// <param name="LengthS">Time without samples in all [s].</param>
/// <param name="Bytes">Bytes thrown away.</param>
public readonly record struct LossTotal(int Records, long Samples, double LengthS, long Bytes);
