using System.Text.Json;
using System.Text.Json.Serialization;
using Clackbeat.Site;

namespace Clackbeat.Tuning.Trials;

/// <summary>
/// A session as a file (JSON, schema <c>clackbeat.tuning/1</c>, SI units, settings in the knob's own unit). It is replaced as a
/// whole through a neighbour, so that a crash leaves the last or the new session, never half of one.
/// </summary>
public static class SessionFile
{
    private const string Schema = "clackbeat.tuning/1";
    private const long Largest = 4_000_000;

    private static readonly JsonSerializerOptions Options = new()
    {
        WriteIndented = true,
        PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) },
    };

    /// <summary>Writes a session.</summary>
    /// <exception cref="IOException">The file can't be written.</exception>
    public static void Save(string path, TuningSession session)
    {
        string neighbour = $"{path}.{Environment.ProcessId}.part";
        try
        {
            using (var file = new FileStream(neighbour, FileMode.Create, FileAccess.Write))
            {
                JsonSerializer.Serialize(file, new Content(Schema, session), Options);
                file.Flush(flushToDisk: true);
            }

            File.Move(neighbour, path, overwrite: true);
        }
        finally
        {
            File.Delete(neighbour);
        }
    }

    /// <summary>Reads a session.</summary>
    /// <exception cref="InputException">The file isn't there or is no session.</exception>
    public static TuningSession Load(string path)
    {
        if (!File.Exists(path))
        {
            throw InputException.Of("tuning.no-file", ("file", path));
        }

        if (new FileInfo(path).Length > Largest)
        {
            throw InputException.Of("tuning.file-large", ("file", path));
        }

        try
        {
            using FileStream file = File.OpenRead(path);
            return Sound(path, JsonSerializer.Deserialize<Content>(file, Options));
        }
        catch (JsonException wrong)
        {
            throw InputException.Of("tuning.file-broken", ("file", path), ("where", Where(wrong)));
        }
    }

    private static TuningSession Sound(string path, Content? content)
    {
        if (content is null || content.Schema != Schema)
        {
            throw InputException.Of("tuning.file-kind", ("file", path), ("schema", Schema));
        }

        TuningSession session = content.Session;
        bool sound = session.Knob.Lowest < session.Knob.Highest
            && session.Trials.All(t => t.Print.IsSound && t.Twin?.IsSound != false && (!t.Works || (t is { DeliveredM3PerS.Value: > 0, Efficiency.Value: > 0, PeakPa.Value: > 0 })));
        return sound ? session : throw InputException.Of("tuning.file-senseless", ("file", path));
    }

    private static string Where(JsonException wrong) => wrong.LineNumber is { } line ? $" (line {line + 1})" : "";

    private sealed record Content(string Schema, TuningSession Session);
}
