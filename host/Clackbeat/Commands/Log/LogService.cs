using System.CommandLine;
using System.Text.RegularExpressions;
using Clackbeat.Frame;
using Clackbeat.Site;
using Clackbeat.Unattended.Settings;

namespace Clackbeat.Commands.Log;

/// <summary>log service: prints what makes a service of the log.</summary>
internal static partial class LogService
{
    public static Command Create(Session session)
    {
        var config = new Option<string>("--config") { Description = "The log's file", HelpName = "FILE", Required = true };
        var user = new Option<string>("--user") { Description = "User to run as", HelpName = "NAME", DefaultValueFactory = _ => "clackbeat" };
        var windows = new Option<bool>("--windows") { Description = "Commands for Windows instead of a unit for systemd", DefaultValueFactory = _ => OperatingSystem.IsWindows() };
        var command = new ExampleCommand(
            "service",
            "Print a systemd unit (or the commands for Windows) that runs the log from every start of the computer",
            "log service --config /etc/clackbeat/log.toml > clackbeat.service")
        {
            config, user, windows,
        };
        command.SetAction(line =>
        {
            string path = Path.GetFullPath(line.GetRequiredValue(config));
            LogSettings settings = LogFile.Load(path);
            string name = line.GetRequiredValue(user);
            if (!UserName().IsMatch(name))
            {
                throw InputException.Of("logging.no-user", ("name", name));
            }

            session.Out.Write(line.GetValue(windows)
                ? ServiceText.Windows(Environment.ProcessPath ?? "clackbeat.exe", path)
                : ServiceText.Systemd(settings, Program(), path, name));
            return ExitCode.Done;
        });
        return command;
    }

    // Run from source or by the dotnet host, the program is that host and an assembly.
    private static string Program()
    {
        string process = Environment.ProcessPath ?? "/usr/local/bin/clackbeat";
        return Path.GetFileNameWithoutExtension(process) == "dotnet"
            ? $"{ServiceText.Quoted(process)} {ServiceText.Quoted(Path.Combine(AppContext.BaseDirectory, $"{typeof(LogService).Assembly.GetName().Name}.dll"))}"
            : ServiceText.Quoted(process);
    }

    [GeneratedRegex(@"^[a-z_][a-z0-9_-]{0,31}$")]
    private static partial Regex UserName();
}
