using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Clackbeat.Frame;

/// <summary>Writes the one JSON object that <c>--json</c> promises.</summary>
internal static class JsonOut
{
    // The relaxed encoder only leaves letters such as ° and é readable; the text never goes into a web page as it is.
    private static readonly JsonSerializerOptions Readable = new()
    {
        WriteIndented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>Writes the object and ends the line.</summary>
    public static void Write(Session session, JsonObject json) => session.Out.WriteLine(json.ToJsonString(Readable));

    /// <summary>A finite number rounded to <paramref name="decimals"/> places, or null for one that isn't.</summary>
    public static JsonNode? Number(double? value, int decimals) =>
        value is { } v && double.IsFinite(v) ? JsonValue.Create(Math.Round(v, decimals)) : null;
}
