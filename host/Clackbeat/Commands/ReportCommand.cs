using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Report;
using Clackbeat.Site.Files;

namespace Clackbeat.Commands;

/// <summary>report: a record in, one page to read, print and keep.</summary>
internal static class ReportCommand
{
    public static Command Create(Session session)
    {
        var input = new RecordInput();
        var site = CommonOptions.Site();
        var output = new Option<string>("--out") { Description = "The report to write, .html or .pdf", HelpName = "FILE", Required = true };
        var overwrite = CommonOptions.Overwrite();
        var command = new ExampleCommand(
            "report",
            "Write a report of a pressure trace: verdict, figures, pictures and cautions in one file",
            "report monday.csv --site my-ram.toml --out monday.html",
            "report monday.csv --site my-ram.toml --baseline when-well.csv --out monday.pdf");
        input.AddTo(command);
        foreach (Option option in new Option[] { site, output, overwrite })
        {
            command.Add(option);
        }

        command.SetAction(line =>
        {
            string path = line.GetRequiredValue(output);
            ReportFormat format = ReportFormats.FromPath(path);
            var ram = SiteFile.Load(line.GetRequiredValue(site));
            using OutputFile file = OutputFile.Create(path, line.GetValue(overwrite));
            var (analysis, baseline) = input.Analyse(session, line, ram);
            var remedies = PipeAdvice.ForReport(session, ram);
            ReportWriter.Write(file.Stream, format, ram, analysis, baseline, DateTimeOffset.Now, remedies);
            file.Commit();
            session.Say($"Wrote {file.Path}");
            return RecordInput.Outcome(session, analysis);
        });
        return command;
    }
}
