using System.Net;
using System.Net.Http.Headers;
using System.Text;
using Clackbeat.Site;
using Clackbeat.Unattended.Delivery;
using Clackbeat.Unattended.Settings;
using Clackbeat.Words;

namespace Clackbeat.Unattended.Forwarding;

/// <summary>Posts packets to a receiver's address with the site's name and secret (HTTP Basic, RFC 7617, over TLS).</summary>
public sealed class WebCarrier : ICarrier, IDisposable
{
    private const int LongestAnswer = 500;
    private readonly ForwardSettings _settings;
    private readonly Uri _address;
    private readonly HttpClient _client;

    /// <summary>Makes it; nothing is sent yet.</summary>
    /// <param name="settings">Where to.</param>
    public WebCarrier(ForwardSettings settings)
    {
        _settings = settings;
        _address = new Uri(settings.Web!, "/v1/packets");
        var handler = new SocketsHttpHandler { PooledConnectionLifetime = TimeSpan.FromMinutes(5), AllowAutoRedirect = false };
        if (settings.Trusted is { } file)
        {
            Func<System.Security.Cryptography.X509Certificates.X509Certificate?, System.Net.Security.SslPolicyErrors, bool> trust = Trust.In(file);
            handler.SslOptions.RemoteCertificateValidationCallback = (_, shown, _, errors) => trust(shown, errors);
        }

        _client = new HttpClient(handler) { Timeout = TimeSpan.FromSeconds(60) };
    }

    /// <inheritdoc/>
    public string Receiver => _address.Host;

    /// <inheritdoc/>
    public async Task<string?> Send(byte[] packet, CancellationToken cancellation)
    {
        try
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, _address) { Content = new ByteArrayContent(packet) };
            request.Content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
            request.Content.Headers.ContentEncoding.Add("gzip");
            request.Headers.Authorization = new AuthenticationHeaderValue(
                "Basic", Convert.ToBase64String(Encoding.UTF8.GetBytes($"{_settings.Site}:{_settings.Secret.Read()}")));
            using HttpResponseMessage answer = await _client.SendAsync(request, cancellation).ConfigureAwait(false);
            if (answer.IsSuccessStatusCode)
            {
                return null;
            }

            string words = await Words(answer, cancellation).ConfigureAwait(false);
            return answer.StatusCode is HttpStatusCode.UnprocessableEntity or HttpStatusCode.RequestEntityTooLarge
                ? words
                : throw new DeliveryException(Phrases.Say("delivery.answered", ("server", Receiver), ("status", words)));
        }
        catch (Exception fault) when (fault is HttpRequestException or TaskCanceledException or InputException or IOException)
        {
            throw new DeliveryException(
                fault is TaskCanceledException ? Phrases.Say("delivery.no-answer", ("server", Receiver)) : (fault.InnerException ?? fault).Message, fault);
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _client.Dispose();

    private static async Task<string> Words(HttpResponseMessage answer, CancellationToken cancellation)
    {
        string status = $"{(int)answer.StatusCode} {answer.ReasonPhrase}".Trim();
        if (answer.Content.Headers.ContentType?.MediaType != "text/plain" || answer.Content.Headers.ContentLength is null or > LongestAnswer)
        {
            return status;
        }

        return $"{status}. {(await answer.Content.ReadAsStringAsync(cancellation).ConfigureAwait(false)).ReplaceLineEndings(" ")}";
    }
}
