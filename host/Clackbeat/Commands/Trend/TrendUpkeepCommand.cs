using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Report.Export;
using Clackbeat.Report.Upkeep;
using Clackbeat.Season.Overview;
using Clackbeat.Season.Store;
using Clackbeat.Season.Upkeep;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Upkeep;
using Clackbeat.Words;

namespace Clackbeat.Commands.Trend;

/// <summary>trend upkeep: what is due, and a logbook sheet to print.</summary>
internal static class TrendUpkeepCommand
{
    public static ExampleCommand Create(Session session, TrendStore store)
    {
        var output = new Option<string?>("--out") { Description = "Write the logbook sheet, .html or .pdf", HelpName = "FILE" };
        var list = new Option<string?>("--rams") { Description = "Table of the rams; columns named as the checks change their intervals", HelpName = "FILE.csv" };
        var at = new Option<string?>("--at") { Description = "As of this time; left out: now", HelpName = "TIME" };
        var us = new Option<bool>("--us") { Description = "Begin with US units" };
        Option<bool> overwrite = CommonOptions.Overwrite();
        var command = new ExampleCommand(
            "upkeep",
            "Show what is due by hours, beats, days and trend, and write a logbook sheet to print",
            "trend my-rams.db upkeep",
            "trend my-rams.db upkeep --out logbook.pdf")
        {
            output, list, at, us, overwrite,
        };
        command.SetAction(line =>
        {
            string? path = line.GetValue(output);
            ReportFormat format = path is null ? ReportFormat.Html : ReportFormats.FromPath(path);
            using ISeasonStore open = store.Open(line);
            string ram = store.RamOf(line, open);
            IReadOnlyDictionary<string, UpkeepInterval> intervals = line.GetValue(list) is { } file && RamList.Read(file).TryGetValue(ram, out RamEntry? entry)
                ? entry.Intervals
                : new Dictionary<string, UpkeepInterval>();
            DateTimeOffset now = SeasonTime.Parse("--at", line.GetValue(at)) ?? DateTimeOffset.UtcNow;
            UpkeepSheet sheet = UpkeepSheets.Of(open, ram, intervals, now, line.GetValue(us) ? Units.Us : Units.Metric);
            if (sheet.Checks.Count == 0)
            {
                throw InputException.Of("trend.no-figure", ("ram", ram));
            }

            if (path is not null)
            {
                using var written = OutputFile.Create(path, line.GetValue(overwrite));
                UpkeepSheetWriter.Write(written.Stream, format, sheet, DateTimeOffset.Now);
                written.Commit();
                session.Say(Phrases.Say("wrote.file", ("file", path)));
                return ExitCode.Done;
            }

            Layout.Table(
                session, [Phrases.Say("upkeep.what"), Phrases.Say("upkeep.every"), Phrases.Say("upkeep.gone-by"), Phrases.Say("upkeep.standing")],
                sheet.Checks.Select(c => (IReadOnlyList<string>)[c.Task, c.Every, c.Since, c.Standing]));
            Layout.Paragraph(session, Phrases.Say("upkeep.practice"));
            return ExitCode.Done;
        });
        return command;
    }
}
