namespace Clackbeat.VirtualLogger;

/// <summary>A virtual logger at work. Disposing it ends it and takes its line down.</summary>
public sealed class ServedLogger : IDisposable
{
    private readonly CancellationTokenSource _stop;
    private readonly IDisposable _wire;

    internal ServedLogger(string? portPath, Stream? hostStream, Task completion, IDisposable wire, CancellationTokenSource stop)
    {
        PortPath = portPath;
        HostStream = hostStream;
        Completion = completion;
        _wire = wire;
        _stop = stop;
    }

    /// <summary>The serial port to open; null for an in-process line.</summary>
    public string? PortPath { get; }

    /// <summary>The host's end of an in-process line; null for a port.</summary>
    public Stream? HostStream { get; }

    /// <summary>Ends when the logger was cancelled or its line cut; faulted only by a defect of the virtual hardware.</summary>
    public Task Completion { get; }

    /// <inheritdoc/>
    public void Dispose()
    {
        _stop.Cancel();
        try
        {
            Completion.Wait();
        }
        finally
        {
            _wire.Dispose();
            _stop.Dispose();
        }
    }
}
