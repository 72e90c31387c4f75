using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Words;

namespace Clackbeat.Commands.Trend;

/// <summary>trend backup, trend restore: the whole store as one file, and back.</summary>
internal static class TrendBackupCommand
{
    public static ExampleCommand Create(Session session, TrendStore store)
    {
        var file = new Argument<string>("FILE") { Description = "The copy; it must not exist" };
        var command = new ExampleCommand(
            "backup", "Copy the whole store into one file while logging goes on; the copy is a season store itself", "trend my-rams.db backup /media/stick/rams-2025-06.db") { file };
        command.SetAction(line =>
        {
            using ISeasonStore open = store.Open(line);
            StoreBackup.Write(open, line.GetRequiredValue(file));
            session.Say(Phrases.Say("wrote.file", ("file", line.GetRequiredValue(file))));
            return ExitCode.Done;
        });
        return command;
    }

    public static ExampleCommand CreateRestore(Session session, TrendStore store)
    {
        var file = new Argument<string>("FILE") { Description = "A backup, or any season store in a file" };
        var command = new ExampleCommand(
            "restore",
            "Add everything of a backup that the store lacks; the store is made when missing, and nothing in it is overwritten",
            "trend my-rams.db restore /media/stick/rams-2025-06.db",
            "trend postgres://anna@server/rams restore my-rams.db") { file };
        command.SetAction(line =>
        {
            string backup = line.GetRequiredValue(file);
            SeasonStores.Open(backup, create: false).Dispose();
            using ISeasonStore open = store.Open(line, create: true);
            int added = StoreBackup.Restore(backup, open);
            session.Out.WriteLine(Phrases.Say("trend.bursts-added", ("bursts", added)));
            return ExitCode.Done;
        });
        return command;
    }
}
