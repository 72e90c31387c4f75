using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using Clackbeat.Records.Samples;

namespace Clackbeat.Records.Bursts;

/// <summary>
/// A burst's hash, made as its samples stream past. Counts are taken where there are any, since a later calibration changes
/// pressures and not what was recorded. Real samples carry noise and are never the same twice; a dead sensor's are, and only
/// there what else is known of the burst is taken in.
/// </summary>
/// <param name="first">The burst's first sample.</param>
internal sealed class BurstHash(Sample first) : IDisposable
{
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private bool _isFlat = true;

    /// <summary>Takes the next sample, the first among them.</summary>
    public void Add(in Sample sample)
    {
        Span<byte> bytes = stackalloc byte[16];
        BinaryPrimitives.WriteInt64LittleEndian(bytes, (long)Math.Round((sample.TimeS - first.TimeS) * 1e6));
        BinaryPrimitives.WriteInt64LittleEndian(bytes[8..], sample.Counts is { } counts ? counts : BitConverter.DoubleToInt64Bits(sample.PressurePa));
        _hash.AppendData(bytes);
        _isFlat &= sample.PressurePa == first.PressurePa;
    }

    /// <summary>The hash of a burst that only its time tells from others like it.</summary>
    public byte[] Finish(DateTimeOffset startUtc)
    {
        Span<byte> seconds = stackalloc byte[8];
        BinaryPrimitives.WriteInt64LittleEndian(seconds, startUtc.ToUnixTimeSeconds());
        return Finish(seconds);
    }

    /// <summary>The hash of a burst that has a name of its own, whatever its time is believed to be.</summary>
    public byte[] Finish(string identity) => Finish(Encoding.UTF8.GetBytes(identity));

    /// <inheritdoc/>
    public void Dispose() => _hash.Dispose();

    private byte[] Finish(ReadOnlySpan<byte> whatElse)
    {
        if (_isFlat)
        {
            _hash.AppendData(whatElse);
        }

        return _hash.GetHashAndReset();
    }
}
