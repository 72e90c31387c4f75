using System.CommandLine;
using Clackbeat.Site;
using Clackbeat.Unattended.Settings;

namespace Clackbeat.Commands;

/// <summary>The options by which a command finds a log that runs or ran: its file, or its folder.</summary>
internal sealed class LogPlace
{
    private readonly Option<string?> config = new("--config") { Description = "The log's file", HelpName = "FILE" };

    private readonly Option<string?> folder = new("--folder") { Description = "The log's folder, for a log without a file", HelpName = "DIR" };

    public void AddTo(Command command)
    {
        command.Add(config);
        command.Add(folder);
    }

    /// <summary>The log's folder.</summary>
    public string Folder(ParseResult line)
    {
        string place = line.GetValue(folder) ?? Settings(line)?.Folder
            ?? throw new InputException("Say which log: --config FILE, or --folder DIR for one without a file.");
        return Directory.Exists(place) ? place : throw new InputException($"{place}: there is no such folder. Has the log run yet?");
    }

    /// <summary>What the log's file says; null without one.</summary>
    public LogSettings? Settings(ParseResult line) => line.GetValue(config) is { } path ? LogFile.Load(path) : null;
}
