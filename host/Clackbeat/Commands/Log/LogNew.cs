using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Unattended.Settings;
using Clackbeat.Words;

namespace Clackbeat.Commands.Log;

/// <summary>log new: the commented file that an unattended log works by.</summary>
internal static class LogNew
{
    public static Command Create(Session session)
    {
        var file = new Argument<string>("FILE") { Description = "File to write, such as log.toml" };
        Option<bool> overwrite = CommonOptions.Overwrite();
        var command = new ExampleCommand("new", "Write a commented file that says which loggers to log, how often, and whom to tell", "log new log.toml") { file, overwrite };
        command.SetAction(line =>
        {
            string path = line.GetRequiredValue(file);
            OutputFile.WriteText(path, LogFile.Template, line.GetValue(overwrite));
            session.Say(Phrases.Say("wrote.log", ("file", path)));
            return ExitCode.Done;
        });
        return command;
    }
}
