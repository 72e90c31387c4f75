namespace Clackbeat.VirtualLogger.Wires;

/// <summary>A line with nobody at its other end.</summary>
internal sealed class SilentWire : IWire
{
    public void Write(ReadOnlySpan<byte> bytes)
    {
    }

    public int Read(Span<byte> buffer) => 0;

    public void WaitForInput(int milliseconds)
    {
    }

    public void Dispose()
    {
    }
}
