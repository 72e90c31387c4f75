using System.Security.Cryptography;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Clackbeat.Words;

namespace Clackbeat.Unattended.Delivery;

/// <summary>One message about an alert. Its id is the same however often it is sent, so a receiver can drop a double.</summary>
public sealed record AlertMessage
{
    private static readonly JsonSerializerOptions Readable = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Id of the message.</summary>
    public required string Id { get; init; }

    /// <summary>Number of the alert, for 'log ack'; 0 for a test.</summary>
    public required int Alert { get; init; }

    /// <summary>raised, cleared, escalated, several or test.</summary>
    public required string Event { get; init; }

    /// <summary>Name of the ram; "log" for the log itself.</summary>
    public required string Ram { get; init; }

    /// <summary>Code of the kind.</summary>
    public required string Kind { get; init; }

    /// <summary>Since when.</summary>
    public required DateTimeOffset SinceUtc { get; init; }

    /// <summary>When this happened.</summary>
    public required DateTimeOffset AtUtc { get; init; }

    /// <summary>A line.</summary>
    public required string Title { get; init; }

    /// <summary>Sentences.</summary>
    public required string Text { get; init; }

    /// <summary>The figure, SI; null for none.</summary>
    public double? Value { get; init; }

    /// <summary>Its expanded uncertainty; null for none.</summary>
    public double? U { get; init; }

    /// <summary>True where <see cref="Value"/> is an upper bound.</summary>
    public bool IsUpperBound { get; init; }

    /// <summary>Its limit, SI; null for none.</summary>
    public double? Limit { get; init; }

    /// <summary>The messages that this one is made of; none for one that stands for itself.</summary>
    public IReadOnlyList<AlertMessage> Parts { get; init; } = [];

    /// <summary>One message of several. Its id is the same for the same messages, so a receiver can drop a double.</summary>
    /// <param name="parts">The messages.</param>
    /// <param name="nowUtc">Now.</param>
    public static AlertMessage Several(IReadOnlyList<AlertMessage> parts, DateTimeOffset nowUtc)
    {
        string[] rams = [.. parts.Select(p => p.Ram).Distinct()];
        return new AlertMessage
        {
            Id = "several-" + Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\n', parts.Select(p => p.Id)))))[..24],
            Alert = 0,
            Event = "several",
            Ram = rams is [var one] ? one : "several",
            Kind = "several",
            SinceUtc = parts.Min(p => p.SinceUtc),
            AtUtc = nowUtc,
            Title = Phrases.Say("unattended.several-title", ("messages", parts.Count), ("rams", string.Join(", ", rams))),
            Text = string.Join("\n\n", parts.Select(p => Phrases.Say("unattended.several-part", ("title", p.Title), ("text", p.Text), ("alert", p.Alert)))),
            Parts = parts,
        };
    }

    /// <summary>A message that tries the ways.</summary>
    public static AlertMessage Test(DateTimeOffset nowUtc) => new()
    {
        Id = $"test-{nowUtc.ToUnixTimeMilliseconds()}",
        Alert = 0,
        Event = "test",
        Ram = "test",
        Kind = "test",
        SinceUtc = nowUtc,
        AtUtc = nowUtc,
        Title = Phrases.Say("unattended.test-title"),
        Text = Phrases.Say("unattended.test-text"),
    };

    /// <summary>The JSON that webhooks, MQTT and commands get (schema clackbeat.alert/1).</summary>
    public string ToJson() => Json().ToJsonString(Readable);

    private JsonObject Json() => new()
    {
        ["schema"] = "clackbeat.alert/1",
        ["id"] = Id,
        ["alert"] = Alert,
        ["event"] = Event,
        ["ram"] = Ram,
        ["kind"] = Kind,
        ["since"] = SinceUtc.ToUniversalTime().ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", System.Globalization.CultureInfo.InvariantCulture),
        ["at"] = AtUtc.ToUniversalTime().ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", System.Globalization.CultureInfo.InvariantCulture),
        ["title"] = Title,
        ["text"] = Text,
        ["value"] = Value,
        ["u"] = U,
        ["bound"] = IsUpperBound ? "upper" : null,
        ["limit"] = Limit,
        ["parts"] = Parts.Count > 0 ? new JsonArray([.. Parts.Select(p => p.Json())]) : null,
    };
}
