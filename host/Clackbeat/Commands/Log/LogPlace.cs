using System.CommandLine;
using Clackbeat.Site;
using Clackbeat.Unattended.Settings;

namespace Clackbeat.Commands.Log;

/// <summary>The options by which a command finds a log that runs or ran: its file, or its folder.</summary>
internal sealed class LogPlace
{
    private readonly Option<string?> _config = new("--config") { Description = "The log's file", HelpName = "FILE" };

    private readonly Option<string?> _folder = new("--folder") { Description = "The log's folder, for a log without a file", HelpName = "DIR" };

    public void AddTo(Command command)
    {
        command.Add(_config);
        command.Add(_folder);
    }

    /// <summary>The log's folder.</summary>
    public string Folder(ParseResult line)
    {
        string place = line.GetValue(_folder) ?? Settings(line)?.Folder
            ?? throw InputException.Of("logging.which");
        return Directory.Exists(place) ? place : throw InputException.Of("logging.no-folder", ("folder", place));
    }

    /// <summary>What the log's file says; null without one.</summary>
    public LogSettings? Settings(ParseResult line) => line.GetValue(_config) is { } path ? LogFile.Load(path) : null;
}
