using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Clackbeat.Watch.Stream;

/// <summary>Events as they go over the wire: server-sent events with JSON (WHATWG HTML, section 9.2).</summary>
internal static class Wire
{
    /// <summary>How JSON is written to the page.</summary>
    public static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        // Base 64 has plus signs, and no HTML is made of these texts: the page sets them as text.
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) },
    };

    // Within a page every bracket has to be escaped, or a name with one could end the block it stands in.
    private static readonly JsonSerializerOptions InPage = new(Json) { Encoder = JavaScriptEncoder.Default };

    /// <summary>Data to stand within a page.</summary>
    public static string WithinPage(object data) => JsonSerializer.Serialize(data, data.GetType(), InPage);

    /// <summary>An event.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="data">What it tells.</param>
    public static byte[] Event(string name, object data) =>
        Encoding.UTF8.GetBytes($"event: {name}\ndata: {JsonSerializer.Serialize(data, data.GetType(), Json)}\n\n");
}
