using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Report.Export;
using Clackbeat.Report.Seasons;
using Clackbeat.Season.Store;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Commands.Trend;

/// <summary>trend report: the season on one page for a committee meeting.</summary>
internal static class TrendReportCommand
{
    public static ExampleCommand Create(Session session, TrendStore store)
    {
        var output = new Option<string>("--out") { Description = "The report to write, .html or .pdf", HelpName = "FILE", Required = true };
        var from = new Option<string?>("--from") { Description = "First day of the season; left out: the first in the store", HelpName = "TIME" };
        var to = new Option<string?>("--to") { Description = "End of the season, itself excluded; left out: the last in the store", HelpName = "TIME" };
        var us = new Option<bool>("--us") { Description = "Begin with US units; the page can switch, and paper shows both" };
        Option<bool> overwrite = CommonOptions.Overwrite();
        var command = new ExampleCommand(
            "report",
            "Write the season on one page for a meeting: water, efficiency, every hour, upkeep, and what to decide",
            "trend my-rams.db report --out season.html",
            "trend my-rams.db report --from 2025-01-01 --to 2026-01-01 --out season-2025.pdf")
        {
            output, from, to, us, overwrite,
        };
        command.SetAction(line =>
        {
            ReportFormat format = ReportFormats.FromPath(line.GetRequiredValue(output));
            var span = new TimeSpanUtc(
                SeasonTime.Parse("--from", line.GetValue(from)) ?? TimeSpanUtc.All.From, SeasonTime.Parse("--to", line.GetValue(to)) ?? TimeSpanUtc.All.To);
            using ISeasonStore open = store.Open(line);
            SeasonStory story = SeasonStories.Of(open, store.RamOf(line, open), span, line.GetValue(us) ? Units.Us : Units.Metric);
            using var file = OutputFile.Create(line.GetRequiredValue(output), line.GetValue(overwrite));
            SeasonReportWriter.Write(file.Stream, format, story, DateTimeOffset.Now);
            file.Commit();
            session.Say(Phrases.Say("wrote.file", ("file", line.GetRequiredValue(output))));
            return ExitCode.Done;
        });
        return command;
    }
}
