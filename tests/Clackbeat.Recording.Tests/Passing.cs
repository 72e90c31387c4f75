namespace Clackbeat.Recording.Tests;

/// <summary>A stream that lets another through, unless something stands before it.</summary>
/// <param name="inner">The other; owned.</param>
/// <param name="before">Fills a buffer in its place and says how far; 0 lets the other fill it.</param>
/// <param name="atMost">Bytes that a read gives at most; asked anew for each.</param>
internal sealed class Passing(Stream inner, Func<Span<byte>, int>? before = null, Func<int>? atMost = null) : Stream
{
    public override bool CanRead => true;

    public override bool CanSeek => inner.CanSeek;

    public override bool CanWrite => inner.CanWrite;

    public override long Length => inner.Length;

    public override long Position
    {
        get => inner.Position;
        set => inner.Position = value;
    }

    public override void Flush() => inner.Flush();

    public override int Read(Span<byte> buffer)
    {
        buffer = buffer[..Math.Min(buffer.Length, atMost?.Invoke() ?? int.MaxValue)];
        int count = before?.Invoke(buffer) ?? 0;
        return count > 0 ? count : inner.Read(buffer);
    }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override void Write(byte[] buffer, int offset, int count) => inner.Write(buffer, offset, count);

    public override long Seek(long offset, SeekOrigin origin) => inner.Seek(offset, origin);

    public override void SetLength(long value) => inner.SetLength(value);

    protected override void Dispose(bool disposing)
    {
        inner.Dispose();
        base.Dispose(disposing);
    }
}
