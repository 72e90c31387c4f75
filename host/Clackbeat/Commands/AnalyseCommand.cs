using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Report.Export;
using Clackbeat.Site.Files;

namespace Clackbeat.Commands;

/// <summary>analyse: a record in, its figures out.</summary>
internal static class AnalyseCommand
{
    public static Command Create(Session session)
    {
        var input = new RecordInput();
        var site = CommonOptions.Site();
        var beats = new Option<string?>("--beats") { Description = "Also write one row a beat into this CSV file", HelpName = "FILE.csv" };
        var json = CommonOptions.Json();
        var overwrite = CommonOptions.Overwrite();
        var command = new ExampleCommand(
            "analyse",
            "Find every beat in a pressure trace and tell rate, peaks, delivery pressure and what the ram is doing",
            "analyse monday.csv --site my-ram.toml",
            "analyse lab.tsv --site my-ram.toml --time day_fraction:day --pressure body_cm:cm --json");
        input.AddTo(command);
        foreach (Option option in new Option[] { site, beats, json, overwrite })
        {
            command.Add(option);
        }

        command.SetAction(line =>
        {
            var ram = SiteFile.Load(line.GetRequiredValue(site));
            using OutputFile? table = line.GetValue(beats) is { } path ? OutputFile.Create(path, line.GetValue(overwrite)) : null;
            var (analysis, baseline) = input.Analyse(session, line, ram);
            if (table is not null)
            {
                using (var writer = new StreamWriter(table.Stream, leaveOpen: true))
                {
                    BeatCsv.Write(writer, analysis.BeatList);
                }

                table.Commit();
                session.Say($"Wrote {analysis.BeatList.Count} beats to {table.Path}");
            }

            if (line.GetValue(json))
            {
                session.Out.WriteLine(AnalysisJson.ToText(analysis));
            }
            else
            {
                AnalysisText.Write(session, ram, analysis, baseline);
            }

            return RecordInput.Outcome(session, analysis);
        });
        return command;
    }
}
