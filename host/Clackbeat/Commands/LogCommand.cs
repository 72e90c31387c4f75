using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Signal.Traces;
using Clackbeat.Site;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;

namespace Clackbeat.Commands;

/// <summary>log: bursts from recordings and traces into the season store, each once.</summary>
internal static class LogCommand
{
    public static Command Create(Session session)
    {
        var inputs = new Argument<string[]>("INPUT") { Description = "Recordings, or pressure traces as CSV or TSV", Arity = ArgumentArity.OneOrMore };
        var site = CommonOptions.Site();
        var store = new Option<string>("--store") { Description = "Season store: a file, made when missing, or postgres://user@host/database", HelpName = "FILE", Required = true };
        var start = new Option<string?>("--start") { Description = "When the first sample was taken, for an input that doesn't know it; local time unless it says otherwise", HelpName = "TIME" };
        var time = new Option<string?>("--time") { Description = "Time column and its unit, as for analyse", HelpName = "COLUMN[:UNIT]" };
        var pressure = new Option<string?>("--pressure") { Description = "Gauge pressure column and its unit, as for analyse", HelpName = "COLUMN[:UNIT]" };
        var command = new ExampleCommand(
            "log",
            "Put the bursts of recordings and traces into the season store, each burst once",
            "log card/*.clk --site my-ram.toml --store my-rams.db",
            "log monday.csv --start 2025-06-12T14:30 --site my-ram.toml --store my-rams.db")
        {
            inputs, site, store, start, time, pressure,
        };
        command.SetAction(line =>
        {
            RamSite ram = SiteFile.Load(line.GetRequiredValue(site));
            TraceColumns columns = TraceColumns.Parse(line.GetValue(time), line.GetValue(pressure));
            string[] files = line.GetRequiredValue(inputs);
            DateTimeOffset? given = SeasonTime.Parse("--start", line.GetValue(start));
            if (given is not null && files.Length > 1)
            {
                throw new InputException("--start is the start of one input. Log one file at a time with it.");
            }

            using ISeasonStore open = SeasonStores.Open(line.GetRequiredValue(store), create: true);
            return new SeasonIngest(session, open, ram, columns, given).Run(files);
        });
        return command;
    }
}
