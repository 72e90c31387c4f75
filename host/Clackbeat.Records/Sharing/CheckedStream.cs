using System.Security.Cryptography;
using Clackbeat.Site;

namespace Clackbeat.Records.Sharing;

/// <summary>
/// Counts and hashes what passes, in either direction. While reading it stops at the length that the archive states, so that an
/// archive that lies about it can't fill memory or disk.
/// </summary>
internal sealed class CheckedStream : Stream
{
    private readonly Stream _inner;
    private readonly IDisposable? _owner;
    private readonly long _statedLength;
    private readonly string _what;
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private long _count;

    /// <summary>Wraps a stream to read from.</summary>
    /// <param name="inner">The unpacked bytes; owned from here on.</param>
    /// <param name="owner">Goes with it.</param>
    /// <param name="statedLength">Length that the archive states [bytes].</param>
    /// <param name="what">What messages call it.</param>
    public CheckedStream(Stream inner, IDisposable owner, long statedLength, string what) =>
        (_inner, _owner, _statedLength, _what) = (inner, owner, statedLength, what);

    /// <summary>Wraps a stream to write to; it is owned from here on.</summary>
    public CheckedStream(Stream inner) => (_inner, _statedLength, _what) = (inner, long.MaxValue, "");

    /// <summary>SHA-256 of all that passed, in lower-case hex.</summary>
    public string Sha256 => Convert.ToHexStringLower(_hash.GetCurrentHash());

    /// <inheritdoc/>
    public override bool CanRead => _inner.CanRead;

    /// <inheritdoc/>
    public override bool CanWrite => _inner.CanWrite;

    /// <inheritdoc/>
    public override bool CanSeek => false;

    /// <inheritdoc/>
    public override long Length => _inner.CanWrite ? _count : _statedLength;

    /// <inheritdoc/>
    public override long Position
    {
        get => _count;
        set => throw new NotSupportedException();
    }

    /// <inheritdoc/>
    public override int Read(byte[] buffer, int offset, int count)
    {
        int read;
        try
        {
            read = _inner.Read(buffer, offset, count);
        }
        catch (InvalidDataException damaged)
        {
            throw InputException.Of(damaged, "shared.cant-unpack", ("file", _what));
        }

        _count += read;
        if (_count > _statedLength)
        {
            throw InputException.Of("shared.unpacks-to-more", ("file", _what));
        }

        _hash.AppendData(buffer, offset, read);
        return read;
    }

    /// <inheritdoc/>
    public override void Write(byte[] buffer, int offset, int count)
    {
        _inner.Write(buffer, offset, count);
        _count += count;
        _hash.AppendData(buffer, offset, count);
    }

    /// <inheritdoc/>
    public override void Flush() => _inner.Flush();

    /// <inheritdoc/>
    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override void SetLength(long value) => throw new NotSupportedException();

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            _inner.Dispose();
            _owner?.Dispose();
            _hash.Dispose();
        }

        base.Dispose(disposing);
    }
}
