using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;

namespace Clackbeat.Commands.Trend;

/// <summary>trend: what a season store tells, in tables and pictures, and the care of the store itself.</summary>
internal static class TrendCommand
{
    public static Command Create(Session session)
    {
        var store = new TrendStore();
        var demo = new Option<bool>("--demo") { Description = "Make a virtual year and show its trends" };
        var folder = new Option<string>("--out") { Description = "Folder for the demo's store, truth and pictures", HelpName = "DIR", DefaultValueFactory = _ => "clackbeat-season" };
        Option<bool> json = CommonOptions.Json();
        var command = new ExampleCommand(
            "trend",
            "Show how the ram did through weeks and years: trends, changes, water, hours",
            "trend my-rams.db",
            "trend my-rams.db report --out season.html",
            "trend my-rams.db plot --figure efficiency --to efficiency.svg",
            "trend my-rams.db mark \"replaced clack rubber\"",
            "trend postgres://anna@server/rams --ram \"ram at the mill\"",
            "trend --demo")
        {
            store.Name, store.Ram, demo, folder, json,
        };
        command.SharesArguments = true;
        command.SetAction(line =>
        {
            if (line.GetValue(demo))
            {
                return TrendDemo.Run(session, line.GetRequiredValue(folder));
            }

            using ISeasonStore open = store.Open(line);
            RamSeason overview = TrendOverview.Of(open, store.RamOf(line, open));
            if (line.GetValue(json))
            {
                JsonOut.Write(session, TrendJson.Of(overview));
            }
            else
            {
                overview.Write(session);
            }

            return ExitCode.Done;
        });
        foreach (Command part in new[]
        {
            TrendReportCommand.Create(session, store), TrendPlotCommand.Create(session, store), TrendCalendarCommand.Create(session, store),
            TrendTotalsCommand.Create(session, store), TrendMarkCommand.Create(session, store), TrendForecastCommand.Create(session, store), TrendUpkeepCommand.Create(session, store),
            TrendListCommands.CreateBursts(session, store), TrendCorrectCommand.CreateCorrect(session, store), TrendCorrectCommand.CreateRemove(session, store),
            TrendListCommands.CreateJournal(session, store), TrendCorrectCommand.CreateUndo(session, store),
            TrendBackupCommand.Create(session, store), TrendBackupCommand.CreateRestore(session, store), TrendExportCommand.Create(session, store),
        })
        {
            command.Add(part);
        }

        return command;
    }
}
