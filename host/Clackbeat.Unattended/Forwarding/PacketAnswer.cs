using System.Buffers;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Clackbeat.Unattended.Forwarding;

/// <summary>What a receiver says of a packet.</summary>
public sealed record PacketAnswer
{
    /// <summary>Last part of the topic on which it answers.</summary>
    public const string Topic = "answer";

    private const int LongestBytes = 4096;
    private static readonly JsonSerializerOptions Form = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    };

    /// <summary>SHA-256 of the packet as it came, in hexadecimal.</summary>
    public string Packet { get; init; } = "";

    /// <summary>Bursts stored that were new.</summary>
    public int Stored { get; init; }

    /// <summary>Bursts that the store had.</summary>
    public int Known { get; init; }

    /// <summary>Why it was not stored; null where it was.</summary>
    public string? Refused { get; init; }

    /// <summary>It will never be stored as it is.</summary>
    public bool IsFinal { get; init; }

    /// <summary>As JSON.</summary>
    public byte[] ToJson() => JsonSerializer.SerializeToUtf8Bytes(this, Form);

    /// <summary>Reads one; null for what is none.</summary>
    /// <param name="json">What came.</param>
    public static PacketAnswer? Read(ReadOnlySequence<byte> json)
    {
        try
        {
            return json.Length > LongestBytes ? null : JsonSerializer.Deserialize<PacketAnswer>(json.ToArray(), Form);
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
