using System.Text.Json;
using System.Text.Json.Nodes;
using Clackbeat.Site;
using Clackbeat.Twin.Fitting;
using Clackbeat.Twin.Model;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.Twin.Files;

/// <summary>A saved twin: JSON of schema <c>clackbeat.twin/1</c>, its ram in SI units by the names of <see cref="RamParameters"/>.</summary>
public static class TwinFile
{
    /// <summary>Name of the schema.</summary>
    public const string Schema = "clackbeat.twin/1";

    private static readonly JsonSerializerOptions Names = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower,
        IgnoreReadOnlyProperties = true,
        RespectNullableAnnotations = true,
        WriteIndented = true,
    };

    /// <summary>The file's text.</summary>
    /// <param name="twin">The twin.</param>
    /// <param name="record">Name of the record it was fitted to.</param>
    /// <param name="made">When it is made.</param>
    public static string Text(FittedTwin twin, string record, DateTimeOffset made)
    {
        ArgumentNullException.ThrowIfNull(twin);
        return new JsonObject
        {
            ["schema"] = Schema,
            ["site"] = twin.Frame.Site.Name,
            ["record"] = record,
            ["made"] = made.ToString("yyyy-MM-dd'T'HH:mm:sszzz", System.Globalization.CultureInfo.InvariantCulture),
            ["fits"] = twin.Fits,
            ["misfit"] = Math.Round(twin.Misfit, 1),
            ["parameters"] = new JsonArray([.. Enum.GetValues<TwinParameter>().Select(p => new JsonObject
            {
                ["name"] = JsonNamingPolicy.SnakeCaseLower.ConvertName(p.ToString()),
                ["value"] = Math.Round(twin.Values[(int)p], 4),
                ["u"] = Math.Round(2 * Math.Sqrt(Math.Max(0, twin.Covariance[(int)p, (int)p])), 4),
                ["seen"] = Math.Round(twin.Seen(p), 2),
            })]),
            ["ram"] = JsonSerializer.SerializeToNode(RunningTwin.Of(twin), Names),
        }.ToJsonString(Names);
    }

    /// <summary>The ram of a saved twin.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="InputException">There is no such file, or it holds no twin.</exception>
    public static RamParameters Load(string path)
    {
        if (!File.Exists(path))
        {
            throw InputException.Of("table.no-such-file", ("file", path));
        }

        try
        {
            return Parse(File.ReadAllText(path)) ?? throw InputException.Of("whatif.no-twin-file", ("file", path));
        }
        catch (Exception error) when (error is JsonException or InvalidOperationException or NotSupportedException)
        {
            throw InputException.Of("whatif.no-twin-file", ("file", path));
        }
    }

    private static RamParameters? Parse(string text) =>
        JsonNode.Parse(text) is JsonObject file && file["schema"] is JsonValue schema && schema.GetValue<string>() == Schema
            ? file["ram"].Deserialize<RamParameters>(Names)
            : null;
}
