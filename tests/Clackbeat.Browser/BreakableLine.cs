using System.Net;
using System.Net.Sockets;

namespace Clackbeat.Browser;

/// <summary>A wire between browser and server that can be cut: open connections die, new ones are refused.</summary>
internal sealed class BreakableLine : IAsyncDisposable
{
    private readonly int _to;
    private readonly CancellationTokenSource _stop = new();
    private readonly List<TcpClient> _open = [];
    private readonly Lock _gate = new();
    private TcpListener _listener;

    public BreakableLine(int to)
    {
        _to = to;
        _listener = new TcpListener(IPAddress.Loopback, 0);
        _listener.Start();
        Port = ((IPEndPoint)_listener.LocalEndpoint).Port;
        _ = Accept(_listener);
    }

    public int Port { get; }

    public void Cut()
    {
        _listener.Stop();
        lock (_gate)
        {
            _open.ForEach(c => c.Close());
            _open.Clear();
        }
    }

    public void Mend()
    {
        _listener = new TcpListener(IPAddress.Loopback, Port);
        _listener.Start();
        _ = Accept(_listener);
    }

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        Cut();
        _stop.Dispose();
    }

    private async Task Accept(TcpListener listener)
    {
        try
        {
            while (true)
            {
                TcpClient near = await listener.AcceptTcpClientAsync(_stop.Token);
                var far = new TcpClient();
                await far.ConnectAsync(IPAddress.Loopback, _to, _stop.Token);
                lock (_gate)
                {
                    _open.AddRange([near, far]);
                }

                _ = Copy(near, far);
                _ = Copy(far, near);
            }
        }
        catch (Exception e) when (e is SocketException or OperationCanceledException or ObjectDisposedException)
        {
            // Cut, or over.
        }
    }

    private async Task Copy(TcpClient from, TcpClient to)
    {
        try
        {
            await from.GetStream().CopyToAsync(to.GetStream(), _stop.Token);
            to.Close();
        }
        catch (Exception e) when (e is IOException or OperationCanceledException or ObjectDisposedException or InvalidOperationException)
        {
            from.Close();
            to.Close();
        }
    }
}
