using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Clackbeat.Frame;
using Clackbeat.Signal.HandTests;
using Clackbeat.Site;
using Clackbeat.Watch.Checks;
using Clackbeat.Words;

namespace Clackbeat.Commands.Analyse;

/// <summary>
/// The log of tests by hand: a line of JSON a step, to be read by people and by <c>check</c> again. A line with <c>begun_utc</c> begins a
/// sequence with the causes that its record left open; each line with <c>test</c> after it is a test of that sequence.
/// </summary>
/// <param name="path">The log.</param>
internal sealed class CheckBook(string path) : ICheckBook
{
    /// <summary>Name of the record that the newest sequence began with; null for the newest minute of a live ram, and without a sequence.</summary>
    public string? Record { get; private set; }

    /// <summary>The log.</summary>
    public string Path => path;

    /// <summary>Lines of the newest sequence, its beginning first.</summary>
    public IReadOnlyList<JsonObject> Lines { get; private set; } = [];

    /// <inheritdoc/>
    public CheckSequence? Newest { get; private set; }

    /// <summary><c>--log</c></summary>
    public static Option<string?> Option() => new("--log")
    {
        Description = "Log of the tests, a line a step; a sequence that was broken off goes on from it; left out: the .checks.jsonl beside the site file",
        HelpName = "FILE",
    };

    /// <summary>Opens the log that was named, or the one beside the site file, and reads where its newest sequence stands.</summary>
    /// <param name="named">The log that was named; null for none.</param>
    /// <param name="sitePath">The site file.</param>
    /// <exception cref="InputException">The log can't be read.</exception>
    public static CheckBook Open(string? named, string sitePath)
    {
        if (named is not null)
        {
            NamedFiles.RefuseAsOutput(named);
        }

        var book = new CheckBook(named ?? System.IO.Path.ChangeExtension(SavedBaseline.PathOf(sitePath), null)[..^".baseline".Length] + ".checks.jsonl");
        book.Read();
        return book;
    }

    /// <inheritdoc/>
    public void Begin(CheckSequence sequence, string? record)
    {
        Append(new JsonObject
        {
            ["begun_utc"] = Now(),
            ["record"] = record,
            ["causes"] = Causes(sequence),
        });
        (Newest, Record) = (sequence, record);
    }

    /// <inheritdoc/>
    public void Keep(HandReading reading, string? file)
    {
        if (reading.IsUnclear)
        {
            return;
        }

        Newest = Newest?.After(new CheckStep(reading.Test, reading.Verdict));
        JsonObject line = Line(reading, file);
        if (Newest is not null)
        {
            line["causes"] = Causes(Newest);
        }

        Append(line);
    }

    /// <summary>A reading as it stands in the log.</summary>
    /// <param name="reading">The reading.</param>
    /// <param name="file">Its recording; null for none.</param>
    public static JsonObject Line(HandReading reading, string? file)
    {
        var line = new JsonObject { ["test"] = reading.Test, ["file"] = file, ["read_utc"] = Now(), ["verdict"] = reading.Verdict };
        foreach ((string name, double? value) in reading.Figures)
        {
            line[name] = JsonOut.Number(value, 3);
        }

        line["evidence"] = new JsonArray([.. Catalogue.Current.Say(reading.Evidence).Select(e => (JsonNode)JsonValue.Create(e))]);
        return line;
    }

    /// <summary>Causes as they stand in the log.</summary>
    /// <param name="sequence">The sequence.</param>
    public static JsonArray Causes(CheckSequence sequence) =>
        [.. sequence.Causes.Select(c => (JsonNode)new JsonObject { ["condition"] = c.Condition, ["probability"] = JsonOut.Number(c.Probability, 4) })];

    private static string Now() => DateTimeOffset.UtcNow.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);

    private void Append(JsonObject line)
    {
        try
        {
            File.AppendAllText(path, line.ToJsonString() + "\n");
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw InputException.Of("check-log.unwritten", ("file", path), ("why", fault.Message));
        }

        Lines = line.ContainsKey("begun_utc") ? [line] : [.. Lines, line];
    }

    private void Read()
    {
        if (!File.Exists(path))
        {
            return;
        }

        int number = 0;
        foreach (string text in File.ReadLines(path))
        {
            number++;
            if (!string.IsNullOrWhiteSpace(text))
            {
                Take(number, text);
            }
        }
    }

    private void Take(int number, string text)
    {
        try
        {
            JsonObject line = JsonNode.Parse(text)!.AsObject();
            if (line["causes"] is JsonArray causes && line.ContainsKey("begun_utc"))
            {
                Lines = [line];
                Record = line["record"]?.GetValue<string>();
                Newest = CheckSequence.Begin([.. causes.Select(c => new CauseOdds(c!["condition"]!.GetValue<string>(), c["probability"]!.GetValue<double>()))]);
            }
            else
            {
                Lines = [.. Lines, line];
                Newest = Newest?.After(new CheckStep(line["test"]!.GetValue<string>(), line["verdict"]!.GetValue<string>()));
            }
        }
        catch (Exception fault) when (fault is JsonException or InvalidOperationException or NullReferenceException or FormatException)
        {
            throw InputException.Of(fault, "check-log.broken", ("file", path), ("line", number));
        }
    }
}
