using System.IO.Pipelines;

namespace Clackbeat.VirtualLogger.Wires;

/// <summary>
/// The same bytes without a serial port, for systems that have no pseudo-terminals: the host reads and writes
/// <see cref="HostStream"/> as it would a port's stream.
/// </summary>
public sealed class InProcessWire : IWire
{
    // As much as a pseudo-terminal holds before its writer waits.
    private const int Room = 65536;

    private readonly Pipe _toHost = new(new PipeOptions(
        pauseWriterThreshold: Room, resumeWriterThreshold: Room / 2, useSynchronizationContext: false));

    private readonly Pipe _toDevice = new(new PipeOptions(useSynchronizationContext: false));
    private readonly CancellationToken _cancellation;

    /// <summary>Makes a line.</summary>
    /// <param name="cancellation">Ends a wait for the reader.</param>
    public InProcessWire(CancellationToken cancellation)
    {
        _cancellation = cancellation;
        HostStream = new DuplexStream(_toHost.Reader.AsStream(), _toDevice.Writer.AsStream());
    }

    /// <summary>The host's end.</summary>
    public Stream HostStream { get; }

    /// <inheritdoc/>
    public void Write(ReadOnlySpan<byte> bytes)
    {
        bytes.CopyTo(_toHost.Writer.GetSpan(bytes.Length));
        _toHost.Writer.Advance(bytes.Length);
        try
        {
            _toHost.Writer.FlushAsync(_cancellation).AsTask().GetAwaiter().GetResult();
        }
        catch (OperationCanceledException)
        {
            // The line is being taken down; what was on its way is lost, as on a real one.
        }
    }

    /// <inheritdoc/>
    public int Read(Span<byte> buffer)
    {
        if (!_toDevice.Reader.TryRead(out ReadResult result))
        {
            return 0;
        }

        int count = (int)Math.Min(result.Buffer.Length, buffer.Length);
        int at = 0;
        foreach (ReadOnlyMemory<byte> piece in result.Buffer.Slice(0, count))
        {
            piece.Span.CopyTo(buffer[at..]);
            at += piece.Length;
        }

        _toDevice.Reader.AdvanceTo(result.Buffer.GetPosition(count));
        return count;
    }

    /// <inheritdoc/>
    public void WaitForInput(int milliseconds) => _cancellation.WaitHandle.WaitOne(Math.Min(milliseconds, 1));

    /// <inheritdoc/>
    public void Dispose()
    {
        _toHost.Writer.Complete();
        _toDevice.Reader.Complete();
    }
}
