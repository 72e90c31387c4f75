using Clackbeat.Words;
using Spectre.Console;

namespace Clackbeat.Frame;

/// <summary>
/// What a command talks to: results go to <see cref="Out"/>, words about the work to <see cref="Error"/>. Colour,
/// boxes and progress appear only where a person at a terminal sees them.
/// </summary>
internal sealed class Session
{
    private const int PlainWidth = 80;

    private Session(TextWriter output, TextWriter error, bool outIsTerminal, bool errorIsTerminal, CancellationToken stop)
    {
        Out = output;
        Error = error;
        Stop = stop;
        OutIsTerminal = outIsTerminal;
        ErrorIsTerminal = errorIsTerminal;
        Screen = CreateConsole(output, outIsTerminal);
        ErrorScreen = CreateConsole(error, errorIsTerminal);
    }

    /// <summary>Results, and nothing else.</summary>
    public TextWriter Out { get; }

    /// <summary>Progress, warnings, where files went.</summary>
    public TextWriter Error { get; }

    /// <summary>Set when the user or the system asks the program to end.</summary>
    public CancellationToken Stop { get; }

    /// <summary>A person at a terminal reads <see cref="Out"/>.</summary>
    public bool OutIsTerminal { get; }

    /// <summary>Tables for <see cref="Out"/>; plain text, 80 columns wide, where that is no terminal.</summary>
    public IAnsiConsole Screen { get; }

    private IAnsiConsole ErrorScreen { get; }

    /// <summary>A person at a terminal reads <see cref="Error"/>.</summary>
    public bool ErrorIsTerminal { get; }

    /// <summary>The session of a real process.</summary>
    public static Session OnConsole(CancellationToken stop) =>
        new(Console.Out, Console.Error, !Console.IsOutputRedirected, !Console.IsErrorRedirected, stop);

    /// <summary>A session on streams that are no terminal.</summary>
    public static Session OnStreams(TextWriter output, TextWriter error, CancellationToken stop) =>
        new(output, error, outIsTerminal: false, errorIsTerminal: false, stop);

    /// <summary>Says something about the work.</summary>
    public void Say(string words) => Error.WriteLine(words);

    /// <summary>Warns of something that weakens or endangers the result.</summary>
    public void Warn(string words) => Error.WriteLine(Phrases.Say("frame.warning", ("what", words)));

    /// <summary>
    /// Does work that takes a while; <paramref name="work"/> reports the share done, from 0 to 1. A bar shows on a
    /// terminal, nothing elsewhere.
    /// </summary>
    public T WithProgress<T>(string label, Func<IProgress<double>, T> work)
    {
        if (!ErrorIsTerminal)
        {
            return work(new InOrder(_ => { }));
        }

        return ErrorScreen.Progress().AutoClear(true).Start(context =>
        {
            ProgressTask task = context.AddTask(Markup.Escape(label), maxValue: 1);
            return work(new InOrder(share => task.Value = share));
        });
    }

    /// <summary>A console on a writer: plain and 80 columns wide where that is no terminal.</summary>
    public static IAnsiConsole CreateConsole(TextWriter writer, bool isTerminal)
    {
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings
        {
            Ansi = isTerminal ? AnsiSupport.Detect : AnsiSupport.No,
            ColorSystem = isTerminal ? ColorSystemSupport.Detect : ColorSystemSupport.NoColors,
            Interactive = isTerminal ? InteractionSupport.Detect : InteractionSupport.No,
            Out = new AnsiConsoleOutput(writer),
        });
        if (!isTerminal)
        {
            console.Profile.Width = PlainWidth;
        }

        return console;
    }

    // Progress<T> of the core library posts to a thread pool; a bar wants its values in order.
    private sealed class InOrder(Action<double> set) : IProgress<double>
    {
        public void Report(double value) => set(value);

    }
}
