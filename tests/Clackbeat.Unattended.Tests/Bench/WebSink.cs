using System.Net;
using System.Net.Sockets;

namespace Clackbeat.Unattended.Tests.Bench;

/// <summary>A web address that keeps what is posted to it.</summary>
internal sealed class WebSink : IDisposable
{
    private readonly HttpListener _listener = new();
    private readonly Task _serving;

    public WebSink()
    {
        using (var free = new TcpListener(IPAddress.Loopback, 0))
        {
            free.Start();
            Url = new Uri($"http://127.0.0.1:{((IPEndPoint)free.LocalEndpoint).Port}/rams/");
        }

        _listener.Prefixes.Add(Url.ToString());
        _listener.Start();
        _serving = Serve();
    }

    public Uri Url { get; }

    public int Status { get; set; } = 204;

    public List<(string Body, string? Authorization, string? Key)> Posts { get; } = [];

    public void Dispose()
    {
        _listener.Stop();
        _serving.Wait();
        _listener.Close();
    }

    private async Task Serve()
    {
        try
        {
            while (true)
            {
                HttpListenerContext context = await _listener.GetContextAsync();
                using var reader = new StreamReader(context.Request.InputStream);
                Posts.Add((await reader.ReadToEndAsync(), context.Request.Headers["Authorization"], context.Request.Headers["Idempotency-Key"]));
                context.Response.StatusCode = Status;
                context.Response.Close();
            }
        }
        catch (Exception end) when (end is HttpListenerException or ObjectDisposedException)
        {
        }
    }
}
