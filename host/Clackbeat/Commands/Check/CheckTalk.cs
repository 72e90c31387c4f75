using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Clackbeat.Commands.Analyse;
using Clackbeat.Frame;
using Clackbeat.Signal.HandTests;
using Clackbeat.Words;

namespace Clackbeat.Commands.Check;

/// <summary>What the tests by hand say on a screen: causes, a test, a verdict, the end.</summary>
internal static partial class CheckTalk
{
    // Further down nothing is left that a test could bring up.
    private const double LeastToMention = 0.05;

    /// <summary>Says how likely the causes are.</summary>
    public static void Causes(Session session, CheckSequence sequence)
    {
        session.Out.WriteLine();
        session.Out.WriteLine(Phrases.Say("check-run.causes"));
        Layout.Bullets(session, [.. sequence.Causes
            .Where((c, i) => i == 0 || c.Probability >= LeastToMention)
            .Select(c => Phrases.Say("check-run.cause", ("cause", Catalogue.Current.Condition(c.Condition)), ("odds", Odds(c))))]);
    }

    /// <summary>Says what a test is, its cautions first, and what its outcomes mean.</summary>
    public static void Test(Session session, HandTest test)
    {
        session.Out.WriteLine();
        session.Out.WriteLine(Catalogue.Current.Say(test.Name));
        Layout.Paragraph(session, Phrases.Say("check-run.caution", ("what", Catalogue.Current.Say(test.Caution))));
        Layout.Bullets(session, Steps(test));
        Layout.Paragraph(session, Catalogue.Current.Say(test.Meaning));
    }

    /// <summary>The steps of a test, a sentence each.</summary>
    public static IReadOnlyList<string> Steps(HandTest test) => SentenceEnd().Split(Catalogue.Current.Say(test.Steps));

    /// <summary>Says what a test showed.</summary>
    public static void Verdict(Session session, HandReading reading)
    {
        session.Out.WriteLine(Catalogue.Current.Say(reading.Said));
        Layout.Bullets(session, [.. Catalogue.Current.Say(reading.Evidence)]);
    }

    /// <summary>Says what is decided, or that no test is left.</summary>
    public static void End(Session session, CheckSequence sequence)
    {
        session.Out.WriteLine();
        Layout.Paragraph(session, sequence.Steps.Count == 0
            ? Phrases.Say("check-run.clear", ("cause", Catalogue.Current.Condition(sequence.Causes[0].Condition)), ("odds", Odds(sequence.Causes[0])))
            : sequence.IsDecided
            ? Phrases.Say("check-run.decided", ("cause", Catalogue.Current.Condition(sequence.Causes[0].Condition)), ("odds", Odds(sequence.Causes[0])))
            : Phrases.Say("check-run.undecided", ("causes", string.Join(", ", sequence.Close.Select(c => Catalogue.Current.Condition(c.Condition))))));
    }

    // Nothing is told as certain or impossible.
    private static double Odds(CauseOdds cause) => Math.Clamp(100 * cause.Probability, 1, 99);

    /// <summary>The command that reads a recording of a test.</summary>
    public static string Command(HandTest test, string sitePath, string? log, string? before)
    {
        string more = test.Code == HandTest.Bucket ? " --bucket \"" + BucketText.Example + "\"" : test.IsRepeat ? $" --before {Quoted(before ?? Phrases.Say("check-run.record-before"))}" : "";
        return $"clackbeat check {test.Code} {Phrases.Say("check-run.recording")} --site {Quoted(sitePath)}{more}{(log is null ? "" : " --log " + Quoted(log))}";
    }

    /// <summary>A file's name as it is typed.</summary>
    public static string Quoted(string name) => name.Contains(' ', StringComparison.Ordinal) ? $"\"{name}\"" : name;

    /// <summary>Where a sequence stands, as JSON.</summary>
    public static JsonObject Json(CheckBook book, CheckSequence sequence, HandTest? test, string sitePath, string? log, string? before) => new()
    {
        ["schema"] = "clackbeat.check/1",
        ["record"] = book.Record,
        ["log"] = book.Path,
        ["causes"] = CheckBook.Causes(sequence),
        ["steps"] = new JsonArray([.. book.Lines.Skip(1).Select(l => l.DeepClone())]),
        ["is_decided"] = sequence.IsDecided,
        ["next"] = test is { } next
            ? new JsonObject
            {
                ["test"] = next.Code,
                ["name"] = Catalogue.Current.Say(next.Name),
                ["caution"] = Catalogue.Current.Say(next.Caution),
                ["steps"] = new JsonArray([.. Steps(next).Select(s => (JsonNode)JsonValue.Create(s))]),
                ["meaning"] = Catalogue.Current.Say(next.Meaning),
                ["command"] = Command(next, sitePath, log, before),
            }
            : null,
    };

    [GeneratedRegex(@"(?<=[.!?]) +(?=\p{Lu})")]
    private static partial Regex SentenceEnd();
}
