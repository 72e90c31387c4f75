using System.CommandLine;
using Clackbeat.Commands.Rate;
using Clackbeat.Frame;
using Clackbeat.Report.Export;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.Words;

namespace Clackbeat.Commands.Analyse;

/// <summary>analyse: a record in, its figures out.</summary>
internal static class AnalyseCommand
{
    public static Command Create(Session session)
    {
        var input = new RecordInput();
        Option<string?> site = RecordSite.Option();
        var beats = new Option<string?>("--beats") { Description = "Also write one row a beat into this CSV file", HelpName = "FILE.csv" };
        var all = new Option<bool>("--all") { Description = "Print all figures, what was found and why, and what is uncertain" };
        var twin = new Option<bool>("--twin") { Description = "Fit a twin to the record and to its baseline, and tell which parts of the ram have moved; takes some seconds" };
        Option<bool> json = CommonOptions.Json();
        Option<bool> overwrite = CommonOptions.Overwrite();
        var command = new ExampleCommand(
            "analyse",
            "Find every beat in a pressure trace and tell rate, peaks, delivery pressure and what the ram is doing",
            "analyse monday.csv --site my-ram.toml",
            "analyse monday.csv --site my-ram.toml --all",
            "analyse lab.tsv --site my-ram.toml --time day_fraction:day --pressure body_cm:cm --json");
        input.AddTo(command);
        foreach (Option option in new Option[] { site, all, beats, twin, json, overwrite })
        {
            command.Add(option);
        }

        command.Aliases.Add("analyze");
        command.MayEndWith(ExitCode.DonePartly);
        command.SetAction(line =>
        {
            RamSite ram = RecordSite.Of(line.GetValue(site), line.GetRequiredValue(input.Input));
            using OutputFile? table = line.GetValue(beats) is { } path ? OutputFile.Create(path, line.GetValue(overwrite)) : null;
            (RamAnalysis analysis, RamAnalysis? baseline) = input.Analyse(session, line, ram, line.GetValue(site));
            if (line.GetValue(twin))
            {
                analysis = analysis with { Findings = [.. analysis.Findings, .. TwinAdvice.Moved(session, ram, analysis, baseline ?? throw InputException.Of("option.twin-alone"))] };
            }

            if (table is not null)
            {
                table.WriteAndCommit(writer => BeatCsv.Write(writer, analysis.BeatList));
                session.Say(Phrases.Say("wrote.beats", ("beats", analysis.BeatList.Count), ("file", table.Path)));
            }

            if (line.GetValue(json))
            {
                session.Out.WriteLine(AnalysisJson.ToText(analysis));
            }
            else
            {
                Action<Session, RamSite, RamAnalysis, RamAnalysis?> write = line.GetValue(all) ? AnalysisText.WriteAll : AnalysisText.WriteFirst;
                write(session, ram, analysis, baseline);
            }

            return RecordInput.Outcome(session, analysis);
        });
        return command;
    }
}
