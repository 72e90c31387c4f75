using System.Net.Http.Headers;
using System.Text;
using Clackbeat.Site;
using Clackbeat.Unattended.Settings;
using Clackbeat.Words;

namespace Clackbeat.Unattended.Delivery;

/// <summary>Posts the message as JSON to a web address; taken over when the answer is a success (2xx).</summary>
public sealed class WebhookWay(WebhookSettings settings) : IWay
{
    // One client for the life of the program (Microsoft, "Guidelines for using HttpClient"); names are looked up anew now and then.
    private static readonly HttpClient Client = new(new SocketsHttpHandler
    {
        PooledConnectionLifetime = TimeSpan.FromMinutes(5),
        AllowAutoRedirect = false,
    })
    {
        Timeout = TimeSpan.FromSeconds(20),
    };

    /// <inheritdoc/>
    public string Name => "webhook";

    /// <inheritdoc/>
    public async Task Send(AlertMessage message, CancellationToken cancellation)
    {
        try
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, settings.Url)
            {
                Content = new StringContent(message.ToJson(), Encoding.UTF8, "application/json"),
            };
            request.Headers.Add("Idempotency-Key", message.Id);
            if (settings.Token is { } token)
            {
                request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", token.Read());
            }

            using HttpResponseMessage answer = await Client.SendAsync(request, cancellation).ConfigureAwait(false);
            if (!answer.IsSuccessStatusCode)
            {
                throw new DeliveryException(Phrases.Say("delivery.answered", ("server", settings.Url.Host), ("status", $"{(int)answer.StatusCode} {answer.ReasonPhrase}")));
            }
        }
        catch (Exception fault) when (fault is HttpRequestException or TaskCanceledException or InputException or FormatException)
        {
            throw new DeliveryException(fault is TaskCanceledException ? Phrases.Say("delivery.no-answer", ("server", settings.Url.Host)) : fault.Message, fault);
        }
    }
}
