using System.CommandLine;
using Clackbeat.Commands.Capture;
using Clackbeat.Commands.Simulate;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;
using Clackbeat.Unattended.Settings;

namespace Clackbeat.Commands.Log;

/// <summary>The options of log.</summary>
internal sealed class LogOptions
{
    public Argument<string[]> Inputs { get; } = new("INPUT")
    {
        Description = "A logger's serial port, or a folder of collected bursts or a card, or recordings, or pressure traces as CSV, TSV or .xlsx",
        Arity = ArgumentArity.ZeroOrMore,
    };

    public Option<string?> Config { get; } = new("--config")
    {
        Description = "File that says which loggers to log and how, made by 'clackbeat log new'",
        HelpName = "FILE",
    };

    public Option<string?> Site { get; } = new("--site") { Description = "Site file that describes the ram (made by 'clackbeat site new')", HelpName = "SITE" };

    public Option<string?> Store { get; } = new("--store") { Description = "Season store: a file, made when missing, or postgres://user@host/database", HelpName = "FILE" };

    public Option<string?> Start { get; } = new("--start")
    {
        Description = "When the first sample was taken, for a file that doesn't know it; local time unless it says otherwise; left out: as the file's name or the remarks above its table say",
        HelpName = "TIME",
    };

    public Option<string?> Time { get; } = new("--time") { Description = "Time column of a trace and its unit, as for analyse", HelpName = "COLUMN[:UNIT]" };

    public Option<string?> Pressure { get; } = new("--pressure") { Description = "Gauge pressure column of a trace and its unit, as for analyse", HelpName = "COLUMN[:UNIT]" };

    public Option<string?> Started { get; } = StartedOption.Create();

    public Option<bool> Absolute { get; } = new("--absolute") { Description = "Traces and recordings hold absolute pressure, as for analyse" };

    public Option<bool> Twin { get; } = new("--twin")
    {
        Description = "Fit a twin to one burst of each day (UTC) of recordings and traces, and keep its parts as figures; some seconds a day",
    };

    public Option<string?> Every { get; } = new("--every") { Description = "From burst to burst of a logger; left out: 15 min", HelpName = "TIME" };

    public Option<string?> Length { get; } = new("--for") { Description = "Length of a logger's burst; left out: 60 s", HelpName = "TIME" };

    public Option<string?> Folder { get; } = new("--folder")
    {
        Description = "Folder for a logger's raw bursts and the log's notes; left out: the store's name with -log, or clackbeat-log for a server",
        HelpName = "DIR",
    };

    public Option<string?> Watch { get; } = new("--watch")
    {
        Description = "Take each recording or trace that comes into this folder, until stopped",
        HelpName = "DIR",
    };

    public void AddTo(Command command)
    {
        command.Add(Inputs);
        foreach (Option option in new Option[] { Config, Site, Store, Watch, Every, Length, Folder, Start, Started, Time, Pressure, Absolute, Twin })
        {
            command.Add(option);
        }
    }

    /// <summary>Refuses what a file says already.</summary>
    public void RefuseBeside(ParseResult line)
    {
        Option? other = CommonOptions.FirstGiven(line, Site, Store, Watch, Every, Length, Folder, Start, Started, Time, Pressure, Absolute, Twin);
        string? beside = other?.Name ?? (line.GetValue(Inputs) is [var first, ..] ? first : null);
        if (beside is not null)
        {
            throw InputException.Of("logging.beside-config", ("option", beside));
        }
    }

    /// <summary>A log of one logger, as the command line says.</summary>
    public LogSettings Live(ParseResult line, RamSettings ram, string store)
    {
        var usual = new LogSettings { Store = store, Folder = "", Rams = [] };
        string? full = SeasonStores.IsServer(store) ? null : Path.GetFullPath(store);
        LogSettings settings = usual with
        {
            Store = full ?? store,
            Folder = Path.GetFullPath(line.GetValue(Folder) ?? (full is null ? "clackbeat-log" : Path.ChangeExtension(full, null) + "-log")),
            Rams = [ram],
            Every = Span(Every, line.GetValue(Every), usual.Every),
            Length = Span(Length, line.GetValue(Length), usual.Length),
        };
        return settings.Length < settings.Every
            ? settings
            : throw InputException.Of("logging.burst-too-long");
    }

    private static TimeSpan Span(Option option, string? text, TimeSpan otherwise) => text is null
        ? otherwise
        : TimeSpan.FromSeconds(SimulateOptions.Within(option, SimulateOptions.Parse(option, text, QuantityKind.Duration), 1, 86_400, "s"));
}
