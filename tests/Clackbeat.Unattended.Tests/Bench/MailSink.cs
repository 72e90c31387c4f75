using System.Net;
using System.Net.Security;
using System.Net.Sockets;
using System.Security.Authentication;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;

namespace Clackbeat.Unattended.Tests.Bench;

/// <summary>
/// A mail server that keeps what it gets: the few commands of RFC 5321 a client needs to hand a message over, with AUTH PLAIN
/// (RFC 4954) and STARTTLS (RFC 3207) where asked for.
/// </summary>
internal sealed class MailSink : IDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly CancellationTokenSource _stop = new();
    private readonly Task _serving;
    private readonly X509Certificate2? _certificate;

    public MailSink(bool tls = false)
    {
        _certificate = tls ? Certificate() : null;
        _listener.Start();
        _serving = Serve();
    }

    public int Port => ((IPEndPoint)_listener.LocalEndpoint).Port;

    public List<string> Mails { get; } = [];

    public List<string> Accounts { get; } = [];

    /// <summary>Answers every message with a passing refusal.</summary>
    public bool IsBusy { get; set; }

    public void Dispose()
    {
        _stop.Cancel();
        _listener.Stop();
        _serving.Wait();
        _certificate?.Dispose();
        _stop.Dispose();
    }

    private async Task Serve()
    {
        while (!_stop.IsCancellationRequested)
        {
            try
            {
                using TcpClient client = await _listener.AcceptTcpClientAsync(_stop.Token);
                await Talk(client.GetStream());
            }
            catch (Exception end) when (end is OperationCanceledException or SocketException or IOException or AuthenticationException or ObjectDisposedException)
            {
            }
        }
    }

    private async Task Talk(Stream stream)
    {
        await Say(stream, "220 sink ready");
        while (await Line(stream) is { } line)
        {
            switch (line.Split(' ')[0].ToUpperInvariant())
            {
                case "EHLO":
                    await Say(stream, _certificate is not null && stream is not SslStream ? "250-sink\r\n250 STARTTLS" : "250-sink\r\n250 AUTH PLAIN");
                    break;
                case "STARTTLS":
                    await Say(stream, "220 go on");
                    var secure = new SslStream(stream);
                    await secure.AuthenticateAsServerAsync(_certificate!);
                    stream = secure;
                    break;
                case "AUTH":
                    Accounts.Add(Encoding.UTF8.GetString(Convert.FromBase64String(line.Split(' ')[2])).Replace('\0', '|'));
                    await Say(stream, "235 welcome");
                    break;
                case "DATA" when IsBusy:
                    await Say(stream, "451 try again later");
                    break;
                case "DATA":
                    await Say(stream, "354 go on");
                    await Take(stream);
                    await Say(stream, "250 taken");
                    break;
                case "QUIT":
                    await Say(stream, "221 bye");
                    return;
                default:
                    await Say(stream, "250 well");
                    break;
            }
        }
    }

    private async Task Take(Stream stream)
    {
        var mail = new StringBuilder();
        while (await Line(stream) is { } line && line != ".")
        {
            mail.AppendLine(line);
        }

        Mails.Add(mail.ToString());
    }

    private static async Task Say(Stream stream, string words) => await stream.WriteAsync(Encoding.ASCII.GetBytes(words + "\r\n"));

    private static async Task<string?> Line(Stream stream)
    {
        List<byte> line = [];
        byte[] one = new byte[1];
        while (await stream.ReadAsync(one) == 1)
        {
            if (one[0] == '\n')
            {
                return Encoding.UTF8.GetString([.. line]).TrimEnd('\r');
            }

            line.Add(one[0]);
        }

        return null;
    }

    private static X509Certificate2 Certificate()
    {
        using var key = RSA.Create(2048);
        var request = new CertificateRequest("CN=localhost", key, HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1);
        using X509Certificate2 made = request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(1));
        return X509CertificateLoader.LoadPkcs12(made.Export(X509ContentType.Pfx), null);
    }
}
