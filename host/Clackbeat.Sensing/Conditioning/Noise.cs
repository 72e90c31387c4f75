namespace Clackbeat.Sensing.Conditioning;

/// <summary>What a converter's noise leaves of its resolution.</summary>
public static class Noise
{
    /// <summary>
    /// Bits that noise leaves of a span, log₂(span/(σ √12)) (IEEE Std 1241-2010, effective number of bits: the noise of an
    /// ideal converter is its step over √12).
    /// </summary>
    /// <param name="spanCounts">Counts between both ends of the sensor's range.</param>
    /// <param name="noiseCounts">Standard deviation of a reading at a steady voltage [counts].</param>
    public static double EffectiveBits(double spanCounts, double noiseCounts) =>
        Math.Log2(spanCounts / (noiseCounts * Math.Sqrt(12)));

    /// <summary>Standard deviation left in a mean of independent readings.</summary>
    public static double OfMean(double noise, int readings) => noise / Math.Sqrt(readings);
}
