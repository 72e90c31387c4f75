using Clackbeat.Protocol.Messages;

namespace Clackbeat.Records.Samples;

/// <summary>How well a logger's board tells when it took a sample, as it measured it on itself (protocol SPEC §9, bench).</summary>
/// <param name="ConversionS">A conversion [s].</param>
/// <param name="ClockReadingS">A reading of its clock [s].</param>
/// <param name="JitterS">Standard deviation of the samples' times from the grid [s].</param>
public sealed record BoardTiming(double ConversionS, double ClockReadingS, double JitterS)
{
    /// <summary>
    /// The clock is read, then the converter: the instant lies so much behind the one told, or less [s]. The converter holds its input at
    /// an instant of its own within the conversion.
    /// </summary>
    public double InstantBoundS => ConversionS + ClockReadingS;

    /// <summary>Out of a board's own answer.</summary>
    /// <param name="bench">The answer.</param>
    public static BoardTiming Of(Bench bench)
    {
        ArgumentNullException.ThrowIfNull(bench);
        return new BoardTiming(bench.ConversionNanoseconds / 1e9, bench.ClockNanoseconds / 1e9, bench.JitterNanoseconds / 1e9);
    }
}
