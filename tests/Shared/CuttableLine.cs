using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;

namespace Clackbeat.Testing;

/// <summary>A way to a server that can be cut in the middle of a message, and mended.</summary>
internal sealed class CuttableLine : IDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly ConcurrentDictionary<TcpClient, byte> _open = [];
    private readonly (string Host, int Port) _server;
    private volatile bool _isCut;
    private long _bytesLeft = long.MaxValue;

    public CuttableLine((string Host, int Port) server)
    {
        _server = server;
        _listener.Start();
        _ = AcceptAsync();
    }

    public int Port => ((IPEndPoint)_listener.LocalEndpoint).Port;

    /// <summary>Cuts the line as soon as so many more bytes have passed, in either direction.</summary>
    public void CutAfter(long bytes) => Interlocked.Exchange(ref _bytesLeft, bytes);

    public void Mend()
    {
        Interlocked.Exchange(ref _bytesLeft, long.MaxValue);
        _isCut = false;
    }

    public void Dispose()
    {
        _listener.Stop();
        Cut();
    }

    private void Cut()
    {
        _isCut = true;
        foreach (TcpClient client in _open.Keys)
        {
            client.Dispose();
        }

        _open.Clear();
    }

    private async Task AcceptAsync()
    {
        try
        {
            while (true)
            {
                TcpClient host = await _listener.AcceptTcpClientAsync();
                var server = new TcpClient();
                if (_isCut)
                {
                    host.Dispose();
                    continue;
                }

                await server.ConnectAsync(_server.Host, _server.Port);
                (_open[host], _open[server]) = (0, 0);
                _ = PassAsync(host, server);
                _ = PassAsync(server, host);
            }
        }
        catch (Exception ended) when (ended is SocketException or ObjectDisposedException)
        {
            // The test is over.
        }
    }

    private async Task PassAsync(TcpClient from, TcpClient to)
    {
        try
        {
            byte[] bytes = new byte[4096];
            while (await from.GetStream().ReadAsync(bytes) is > 0 and var count)
            {
                long left = Interlocked.Add(ref _bytesLeft, -count);
                int pass = (int)Math.Clamp(left + count, 0, count);
                await to.GetStream().WriteAsync(bytes.AsMemory(0, pass));
                if (pass < count)
                {
                    Cut();
                }
            }
        }
        catch (Exception ended) when (ended is IOException or ObjectDisposedException or InvalidOperationException or SocketException)
        {
            // Cut, or hung up.
        }
        finally
        {
            to.Dispose();
        }
    }
}
