namespace Clackbeat.VirtualLogger.Wires;

/// <summary>The device's end of a serial line.</summary>
public interface IWire : IDisposable
{
    /// <summary>Writes bytes; where nobody takes them, waits or drops them as the wire was told.</summary>
    void Write(ReadOnlySpan<byte> bytes);

    /// <summary>Takes what has come in, without waiting; returns how many bytes.</summary>
    int Read(Span<byte> buffer);

    /// <summary>Waits until something has come in, at most so long.</summary>
    void WaitForInput(int milliseconds);
}
