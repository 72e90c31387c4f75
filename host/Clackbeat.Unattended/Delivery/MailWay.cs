using System.Net.Sockets;
using Clackbeat.Site;
using Clackbeat.Unattended.Settings;
using Clackbeat.Words;
using MailKit;
using MailKit.Net.Smtp;
using MailKit.Security;
using MimeKit;

namespace Clackbeat.Unattended.Delivery;

/// <summary>Sends the message as a plain e-mail.</summary>
public sealed class MailWay(MailSettings settings) : IWay
{
    private const int PatienceMs = 30_000;

    /// <inheritdoc/>
    public string Name => "email";

    /// <inheritdoc/>
    public bool IsForPeople => true;

    /// <inheritdoc/>
    public async Task Send(AlertMessage message, CancellationToken cancellation)
    {
        try
        {
            using var client = new SmtpClient { Timeout = PatienceMs };
            await client.ConnectAsync(settings.Server, settings.Port, Security(), cancellation).ConfigureAwait(false);
            if (settings.User is { } user)
            {
                await client.AuthenticateAsync(user, settings.Password!.Read(), cancellation).ConfigureAwait(false);
            }

            await client.SendAsync(Mail(message), cancellation).ConfigureAwait(false);
            await client.DisconnectAsync(quit: true, cancellation).ConfigureAwait(false);
        }
        catch (Exception fault) when (fault is IOException or SocketException or ProtocolException or CommandException or TimeoutException
            or System.Security.Authentication.AuthenticationException or AuthenticationException or SslHandshakeException or NotSupportedException or InputException or ParseException)
        {
            throw new DeliveryException($"{settings.Server}: {fault.Message.Split('\n', 2)[0].Trim()}", fault);
        }
    }

    private SecureSocketOptions Security() => settings.Security switch
    {
        MailSecurity.Tls => SecureSocketOptions.SslOnConnect,
        MailSecurity.StartTls => SecureSocketOptions.StartTls,
        _ => SecureSocketOptions.None,
    };

    private MimeMessage Mail(AlertMessage message)
    {
        var mail = new MimeMessage { Subject = message.Title, Date = message.AtUtc, Body = new TextPart("plain") { Text = Body(message) } };
        mail.From.Add(MailboxAddress.Parse(settings.From));
        mail.To.AddRange(settings.To.Select(MailboxAddress.Parse));

        // The same message keeps its id however often it is tried, so that mail programs show it once.
        mail.MessageId = $"{message.Id}@clackbeat.invalid";
        mail.Headers.Add("Auto-Submitted", "auto-generated");
        return mail;
    }

    private static string Body(AlertMessage message) => message.Alert > 0 && message.Event == "raised"
        ? Phrases.Say("delivery.mail", ("text", message.Text), ("alert", message.Alert))
        : message.Text + "\n";
}
