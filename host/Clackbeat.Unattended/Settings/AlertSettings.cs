using Clackbeat.Season.Alerts;

namespace Clackbeat.Unattended.Settings;

/// <summary>Whom to tell, and when.</summary>
public sealed record AlertSettings
{
    private static readonly IReadOnlyList<AlertKind> UsuallyUrgent = [AlertKind.OverRating];

    /// <summary>When to speak.</summary>
    public AlertLimits Limits { get; init; } = new();

    /// <summary>By which ways people are told.</summary>
    public AlertChannels Channels { get; init; } = new();

    /// <summary>How long a message waits for others that go along to a person.</summary>
    public TimeSpan Group { get; init; }

    /// <summary>Hours in which only what is urgent is told; null for none.</summary>
    public QuietHours? Quiet { get; init; }

    /// <summary>What is urgent.</summary>
    public IReadOnlyList<AlertKind> Urgent { get; init; } = UsuallyUrgent;

    /// <summary>After how long others are told of an alert that nobody has acknowledged; null for never.</summary>
    public TimeSpan? EscalateAfter { get; init; }

    /// <summary>By which ways these others are told; null for none.</summary>
    public AlertChannels? Escalation { get; init; }
}

/// <summary>Ways by which people are told.</summary>
public sealed record AlertChannels
{
    /// <summary>A program to start; null for none.</summary>
    public CommandSettings? Command { get; init; }

    /// <summary>A web address to post to; null for none.</summary>
    public WebhookSettings? Webhook { get; init; }

    /// <summary>E-mail; null for none.</summary>
    public MailSettings? Mail { get; init; }

    /// <summary>An MQTT broker; null for none.</summary>
    public MqttSettings? Mqtt { get; init; }
}

/// <summary>A program to start.</summary>
/// <param name="Run">The program and its arguments, each as it stands: no shell reads them.</param>
public sealed record CommandSettings(IReadOnlyList<string> Run);

/// <summary>A web address.</summary>
/// <param name="Url">Where to post.</param>
/// <param name="Token">A bearer token; null for none.</param>
public sealed record WebhookSettings(Uri Url, Secret? Token);

/// <summary>How a mail server is spoken to.</summary>
public enum MailSecurity
{
    /// <summary>Encrypted after a greeting (STARTTLS); refused where the server can't.</summary>
    StartTls,

    /// <summary>Encrypted from the first byte.</summary>
    Tls,

    /// <summary>In the open: on this machine only.</summary>
    None,
}

/// <summary>E-mail.</summary>
/// <param name="Server">Name of the mail server.</param>
/// <param name="Port">Its port.</param>
/// <param name="Security">How it is spoken to.</param>
/// <param name="From">Sender.</param>
/// <param name="To">Receivers.</param>
/// <param name="User">Account; null for none.</param>
/// <param name="Password">Its password.</param>
public sealed record MailSettings(
    string Server, int Port, MailSecurity Security, string From, IReadOnlyList<string> To, string? User, Secret? Password);

/// <summary>An MQTT broker.</summary>
/// <param name="Server">Name of the broker.</param>
/// <param name="Port">Its port.</param>
/// <param name="Tls">Encrypted.</param>
/// <param name="Topic">Start of the topic; the ram and the kind of alert follow.</param>
/// <param name="User">Account; null for none.</param>
/// <param name="Password">Its password.</param>
public sealed record MqttSettings(string Server, int Port, bool Tls, string Topic, string? User, Secret? Password);
