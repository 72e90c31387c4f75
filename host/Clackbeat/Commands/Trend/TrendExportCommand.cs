using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Season.Export;
using Clackbeat.Season.Store;
using Clackbeat.Words;

namespace Clackbeat.Commands.Trend;

/// <summary>trend export: the store as Parquet by site and day, for larger analyses.</summary>
internal static class TrendExportCommand
{
    public static ExampleCommand Create(Session session, TrendStore store)
    {
        var folder = new Option<string>("--out") { Description = "Folder for bursts/site=…/day=… and beats/site=…/day=…, marks.csv and marks.parquet; made when missing", HelpName = "DIR", Required = true };
        var from = new Option<string?>("--from") { Description = "First instant, local time unless it says otherwise", HelpName = "TIME" };
        var to = new Option<string?>("--to") { Description = "End, itself excluded", HelpName = "TIME" };
        var command = new ExampleCommand(
            "export", "Write bursts and beats as Parquet files by site and day, and marks as CSV and Parquet; of all rams, or of one with --ram", "trend my-rams.db export --out season-parquet") { folder, from, to };
        command.SetAction(line =>
        {
            using ISeasonStore open = store.Open(line);
            var span = new TimeSpanUtc(
                SeasonTime.Parse("--from", line.GetValue(from)) ?? TimeSpanUtc.All.From, SeasonTime.Parse("--to", line.GetValue(to)) ?? TimeSpanUtc.All.To);
            var parquet = new SeasonParquet(line.GetRequiredValue(folder));
            IReadOnlyList<string> rams = line.GetValue(store.Ram) is null ? open.Rams() : [store.RamOf(line, open)];
            foreach (string ram in rams)
            {
                (int days, int bursts, long beats) = parquet.Write(open, ram, span);
                session.Out.WriteLine(FormattableString.Invariant($"{ram}: {days} days, {bursts} bursts, {beats} beats"));
            }

            int marks = MarksExport.Write(open, rams, Directory.CreateDirectory(line.GetRequiredValue(folder)).FullName);
            session.Out.WriteLine(FormattableString.Invariant($"{marks} {(marks == 1 ? "mark" : "marks")}"));
            session.Say(Phrases.Say("wrote.file", ("file", line.GetRequiredValue(folder))));
            return ExitCode.Done;
        });
        return command;
    }
}
