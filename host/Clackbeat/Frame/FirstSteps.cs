using Clackbeat.Words;

namespace Clackbeat.Frame;

/// <summary>What a user sees who starts the program without a word: the commands to try first, in the order in which one leads to the next.</summary>
internal static class FirstSteps
{
    /// <summary>The commands, without the program's name, each with the key of what it does.</summary>
    internal static IReadOnlyList<(string Command, string Does)> Steps { get; } =
    [
        ("demo", "first-steps.demo"),
        ("site new my-ram.toml", "first-steps.site"),
        ("watch virtual --site my-ram.toml", "first-steps.watch"),
        ("report monday.csv --site my-ram.toml --out monday.html", "first-steps.report"),
    ];

    /// <summary>Writes them.</summary>
    /// <param name="writer">Takes the text; lines of at most 80 characters.</param>
    public static void Write(TextWriter writer)
    {
        writer.WriteLine(Phrases.Say("first-steps.program", ("version", ProgramVersion.Number)));
        writer.WriteLine(Phrases.Say("first-steps.try"));
        foreach ((string command, string does) in Steps)
        {
            writer.WriteLine();
            writer.WriteLine($"  clackbeat {command}");
            writer.WriteLine($"    {Phrases.Say(does)}");
        }

        writer.WriteLine();
        writer.WriteLine(Phrases.Say("first-steps.more"));
    }
}
