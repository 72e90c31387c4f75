using System.CommandLine;
using Clackbeat.Commands.Rate;
using Clackbeat.Frame;
using Clackbeat.Report;
using Clackbeat.Report.Content;
using Clackbeat.Report.Export;
using Clackbeat.Site.Model;
using Clackbeat.Words;

namespace Clackbeat.Commands.Analyse;

/// <summary>report: a record in, one page to read, print and keep.</summary>
internal static class ReportCommand
{
    public static Command Create(Session session)
    {
        var input = new RecordInput();
        Option<string?> site = RecordSite.Option();
        var output = new Option<string>("--out") { Description = "The report to write, .html or .pdf", HelpName = "FILE", Required = true };
        var noTwin = new Option<bool>("--no-twin") { Description = "Fit no twin: quicker by some seconds, but without what would help this ram and which parts have moved" };
        Option<bool> overwrite = CommonOptions.Overwrite();
        var command = new ExampleCommand(
            "report",
            "Write a report of a pressure trace: verdict, figures, pictures and cautions in one file",
            "report monday.csv --site my-ram.toml --out monday.html",
            "report monday.csv --site my-ram.toml --baseline when-well.csv --out monday.pdf");
        input.AddTo(command);
        foreach (Option option in new Option[] { site, output, noTwin, overwrite })
        {
            command.Add(option);
        }

        command.MayEndWith(ExitCode.DonePartly);
        command.SetAction(line =>
        {
            string path = line.GetRequiredValue(output);
            ReportFormat format = ReportFormats.FromPath(path);
            RamSite ram = RecordSite.Of(line.GetValue(site), line.GetRequiredValue(input.Input));
            using var file = OutputFile.Create(path, line.GetValue(overwrite));
            (Signal.Analysis.RamAnalysis? analysis, Signal.Analysis.RamAnalysis? baseline) = input.Analyse(session, line, ram, line.GetValue(site));
            TwinPart? twin = line.GetValue(noTwin) ? null : TwinAdvice.ForReport(session, ram, analysis, baseline);
            ReportWriter.Write(file.Stream, format, ram, analysis, baseline, DateTimeOffset.Now, twin);
            file.Commit();
            session.Say(Phrases.Say("wrote.file", ("file", file.Path)));
            return RecordInput.Outcome(session, analysis);
        });
        return command;
    }
}
