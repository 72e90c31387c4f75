using System.Globalization;
using System.Text.Json.Nodes;
using Clackbeat.Commands.Analyse;
using Clackbeat.Frame;
using Clackbeat.Site.Facts;
using Clackbeat.Words;

namespace Clackbeat.Commands.Check;

/// <summary>Says a verdict and keeps it with its evidence in the log of tests beside the site file.</summary>
internal static class CheckLog
{
    /// <summary>A line of the log.</summary>
    /// <param name="test">Code of the test.</param>
    /// <param name="path">The recording.</param>
    /// <param name="verdict">Code of the verdict.</param>
    /// <param name="figures">Figures of the test.</param>
    /// <param name="evidence">What was seen.</param>
    public static JsonObject Line(string test, string path, string verdict, IEnumerable<(string Name, JsonNode? Value)> figures, IReadOnlyList<Fact> evidence)
    {
        var line = new JsonObject
        {
            ["test"] = test,
            ["file"] = Path.GetFileName(path),
            ["read_utc"] = DateTimeOffset.UtcNow.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture),
            ["verdict"] = verdict,
        };
        foreach ((string name, JsonNode? value) in figures)
        {
            line[name] = value;
        }

        line["evidence"] = new JsonArray([.. Catalogue.Current.Say(evidence).Select(e => (JsonNode)JsonValue.Create(e))]);
        return line;
    }

    /// <summary>Says the verdict, and keeps it if the recording showed the test.</summary>
    /// <param name="session">The run.</param>
    /// <param name="sitePath">The site file.</param>
    /// <param name="line">The line of the log.</param>
    /// <param name="evidence">What was seen.</param>
    /// <param name="isUnclear">The recording doesn't show the test.</param>
    /// <param name="isJson">Print the line itself.</param>
    /// <returns>Exit code.</returns>
    public static int Keep(Session session, string sitePath, JsonObject line, IReadOnlyList<Fact> evidence, bool isUnclear, bool isJson)
    {
        if (isJson)
        {
            JsonOut.Write(session, line);
        }
        else
        {
            session.Out.WriteLine(Catalogue.Current.Say(new Fact("tests.verdict." + line["verdict"]!.GetValue<string>(), [])));
            Layout.Bullets(session, [.. Catalogue.Current.Say(evidence)]);
        }

        if (isUnclear)
        {
            return ExitCode.DonePartly;
        }

        session.Say(Phrases.Say("wrote.kept", ("file", Append(sitePath, line))));
        return ExitCode.Done;
    }

    /// <summary>Adds a line to the log.</summary>
    /// <param name="sitePath">The site file.</param>
    /// <param name="line">The line.</param>
    /// <returns>The log.</returns>
    public static string Append(string sitePath, JsonObject line)
    {
        string log = Path.ChangeExtension(SavedBaseline.PathOf(sitePath), null)[..^".baseline".Length] + ".checks.jsonl";
        File.AppendAllText(log, line.ToJsonString() + "\n");
        return log;
    }
}
