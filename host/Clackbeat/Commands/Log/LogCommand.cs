using System.CommandLine;
using Clackbeat.Commands.Analyse;
using Clackbeat.Commands.Trend;
using Clackbeat.Frame;
using Clackbeat.Recording.Link;
using Clackbeat.Records.Tables;
using Clackbeat.Season.Store;
using Clackbeat.Site;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Unattended.Settings;

namespace Clackbeat.Commands.Log;

/// <summary>log: bursts into the season store: from loggers, season after season, or from recordings and traces.</summary>
internal static class LogCommand
{
    public static Command Create(Session session)
    {
        var options = new LogOptions();
        var command = new ExampleCommand(
            "log",
            "Put bursts into the season store, each once: from a logger or several, season after season, or from recordings and traces",
            "log /dev/ttyUSB0 --site my-ram.toml --store my-rams.db",
            "log --config /etc/clackbeat/log.toml",
            "log monday.cbrec tuesday.cbrec --site my-ram.toml --store my-rams.db",
            "log bursts --site my-ram.toml --store my-rams.db");
        options.AddTo(command);
        command.MayEndWith(ExitCode.DonePartly);
        command.SetAction(line => Run(session, line, options));
        command.Add(LogNew.Create(session));
        command.Add(LogService.Create(session));
        command.Add(LogAlerts.Create(session));
        command.Add(LogAlerts.CreateAck(session));
        command.Add(LogIntake.Create(session));
        return command;
    }

    private static int Run(Session session, ParseResult line, LogOptions options)
    {
        string[] inputs = line.GetValue(options.Inputs) ?? [];
        if (line.GetValue(options.Config) is { } config)
        {
            options.RefuseBeside(line);
            return LogLive.Run(session, LogFile.Load(config));
        }

        if (inputs.Length == 0)
        {
            throw InputException.Of("logging.needs-input");
        }

        string sitePath = line.GetValue(options.Site) ?? throw InputException.Of("logging.needs-site");
        string store = line.GetValue(options.Store) ?? throw InputException.Of("logging.needs-store");
        RamSite ram = SiteFile.Load(sitePath);
        if (inputs is [var one] && IsPort(one))
        {
            return LogLive.Run(session, options.Live(line, new RamSettings(sitePath, ram, one, null, SerialLine.UsualBaud), store));
        }

        var reading = new RecordReading(TraceColumns.Parse(line.GetValue(options.Time), line.GetValue(options.Pressure)), line.GetValue(options.Absolute));
        DateTimeOffset? given = SeasonTime.Parse("--start", line.GetValue(options.Start));
        if (given is not null && inputs.Length > 1)
        {
            throw InputException.Of("logging.start-of-one");
        }

        using var folders = new LogFolders(session, ram, options, line);
        SeasonInput[] bursts = [.. inputs.Where(Directory.Exists).SelectMany(folders.Open)];
        using ISeasonStore open = SeasonStores.Open(store, create: true);
        var ingest = new SeasonIngest(session, open, ram, reading, given);
        int code = ingest.Run([.. inputs.Where(i => !Directory.Exists(i)).Select(ingest.Of), .. bursts]);
        return code == ExitCode.Done && folders.IsPartial ? ExitCode.DonePartly : code;
    }

    // A port that isn't plugged in has no file, but a name of its own kind.
    private static bool IsPort(string input)
    {
        if (OperatingSystem.IsWindows())
        {
            return input.StartsWith("COM", StringComparison.OrdinalIgnoreCase) && input.AsSpan(3).IndexOfAnyExceptInRange('0', '9') < 0;
        }

        string place = File.Exists(input) ? File.ResolveLinkTarget(input, returnFinalTarget: true)?.FullName ?? input : input;
        return place.StartsWith("/dev/", StringComparison.Ordinal);
    }
}
