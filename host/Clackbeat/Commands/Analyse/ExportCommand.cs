using System.CommandLine;
using Clackbeat.Commands.Describe;
using Clackbeat.Frame;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;
using Clackbeat.Records.Export;
using Clackbeat.Records.Sources;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Words;

namespace Clackbeat.Commands.Analyse;

/// <summary>export: a record in a format that other programs read.</summary>
internal static class ExportCommand
{
    public static Command Create(Session session)
    {
        var input = new Argument<string>("INPUT") { Description = "Recording, or pressure trace as CSV, TSV or .xlsx" };
        var output = new Option<string>("--out") { Description = "The file to write, .csv or .parquet", HelpName = "FILE", Required = true };
        var site = new Option<string?>("--site")
        {
            Description = "Site file that describes the sensor; left out: the one inside the recording",
            HelpName = "SITE",
        };
        Option<bool> overwrite = CommonOptions.Overwrite();
        var columns = new RecordInput();
        var command = new ExampleCommand(
            "export",
            "Write a record as CSV or Parquet, with calendar, converter counts and gaps",
            "export monday.cbrec --out monday.csv",
            "export monday.cbrec --out monday.parquet")
        {
            input, output, site, columns.Time, columns.Pressure, columns.Absolute, overwrite,
        };
        command.MayEndWith(ExitCode.DonePartly);
        command.SetAction(line =>
        {
            string path = line.GetRequiredValue(input);
            RecordReading asked = columns.Reading(line);
            bool parquet = IsParquet(line.GetRequiredValue(output));
            RamSite ram = SiteOf(line.GetValue(site), path);
            using var file = OutputFile.Create(line.GetRequiredValue(output), line.GetValue(overwrite));
            ISampleSource source = RecordFile.Open(session, path, asked, ram);
            using IExportFile export = parquet
                ? new ParquetExport(file.Stream, source.Columns, About(path))
                : new CsvExport(file.Stream, source.Columns);
            return Run(session, source, export, file);
        });
        return command;
    }

    private static int Run(Session session, ISampleSource source, IExportFile export, OutputFile file)
    {
        var rows = new ExportRows(export);
        session.WithProgress("Exporting", progress =>
        {
            source.Read(rows.Add, progress, session.Stop);
            rows.Finish();
            return rows.Rows;
        });
        file.Commit();
        session.Say(Phrases.Say("wrote.samples", ("samples", rows.Rows), ("gaps", rows.Gaps), ("file", file.Path)));
        foreach (Fact lack in source.Faults.Lacks)
        {
            session.Warn(Phrases.Say("wrote.what-warning", ("what", lack)));
        }

        return source.Faults.IsPartial || source.Faults.SkippedRows > 0 ? ExitCode.DonePartly : ExitCode.Done;
    }

    private static bool IsParquet(string path) => Path.GetExtension(path).ToLowerInvariant() switch
    {
        ".parquet" => true,
        ".csv" => false,
        _ => throw InputException.Of("input.export-ending", ("file", path)),
    };

    private static RamSite SiteOf(string? sitePath, string input)
    {
        if (sitePath is not null)
        {
            return SiteFile.Load(sitePath);
        }

        if (!BlockReader.IsRecording(input))
        {
            // A table holds pressures already; no sensor is asked for.
            return SiteFile.Parse(SiteTemplate.Text(Site.Quantities.Units.Metric), SiteTemplate.Name);
        }

        return SiteDocuments.TryFind(RecordingScan.Of(input).Sessions.SelectMany(s => s.Documents), input)
            ?? throw InputException.Of("input.recording-without-site", ("file", input));
    }

    private static Dictionary<string, string> About(string path) => new(StringComparer.Ordinal)
    {
        ["source"] = Path.GetFileName(path),
        ["program"] = $"clackbeat {ProgramVersion.Number}",
        ["pressure"] = "gauge",
    };
}
