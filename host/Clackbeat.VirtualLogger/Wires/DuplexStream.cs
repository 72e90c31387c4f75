namespace Clackbeat.VirtualLogger.Wires;

/// <summary>Two one-way streams as one, like a serial port's.</summary>
internal sealed class DuplexStream(Stream input, Stream output) : Stream
{
    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => true;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    public override void Flush() => output.Flush();

    public override int Read(byte[] buffer, int offset, int count) => input.Read(buffer, offset, count);

    public override void Write(byte[] buffer, int offset, int count)
    {
        output.Write(buffer, offset, count);
        output.Flush();
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            input.Dispose();
            output.Dispose();
        }

        base.Dispose(disposing);
    }
}
