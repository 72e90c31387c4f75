using Clackbeat.VirtualLogger.Wires;

namespace Clackbeat.Recording.Tests.Capture;

/// <summary>
/// A cable with a USB adapter, as a logger sees it: pulled out, the port is gone from the host and the logger's bytes go
/// nowhere; plugged in, a new port stands under the same name. The logger runs on all the while.
/// </summary>
internal sealed class PluggedWire(string portPath, bool dropWhenFull, CancellationToken powerOff) : IWire
{
    private readonly Lock _gate = new();
    private PseudoTerminal? _terminal;

    public void Plug()
    {
        var terminal = PseudoTerminal.Open(dropWhenFull, powerOff);
        lock (_gate)
        {
            _terminal = terminal;
        }

        File.CreateSymbolicLink(portPath, terminal.PortPath);
    }

    public void Unplug()
    {
        lock (_gate)
        {
            _terminal?.Dispose();
            _terminal = null;
        }

        File.Delete(portPath);
    }

    public void Write(ReadOnlySpan<byte> bytes)
    {
        lock (_gate)
        {
            _terminal?.Write(bytes);
        }
    }

    public int Read(Span<byte> buffer)
    {
        lock (_gate)
        {
            return _terminal?.Read(buffer) ?? 0;
        }
    }

    public void WaitForInput(int milliseconds) => Thread.Sleep(Math.Min(1, milliseconds));

    public void Dispose()
    {
        lock (_gate)
        {
            _terminal?.Dispose();
            _terminal = null;
        }
    }
}
