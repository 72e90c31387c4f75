using System.CommandLine;
using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Recording.Export;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;
using Clackbeat.Signal.Traces;
using Clackbeat.Site;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;

namespace Clackbeat.Commands;

/// <summary>export: a record in a format that other programs read.</summary>
internal static class ExportCommand
{
    public static Command Create(Session session)
    {
        var input = new Argument<string>("INPUT") { Description = "Recording, or pressure trace as CSV or TSV" };
        var output = new Option<string>("--out") { Description = "The file to write, .csv or .parquet", HelpName = "FILE", Required = true };
        var site = new Option<string?>("--site")
        {
            Description = "Site file that says what the sensor's counts stand for; left out: the one inside the recording",
            HelpName = "SITE",
        };
        var overwrite = CommonOptions.Overwrite();
        var columns = new RecordInput();
        var command = new ExampleCommand(
            "export",
            "Write a record as CSV or Parquet, with calendar, converter counts and gaps",
            "export monday.cbrec --out monday.csv",
            "export monday.cbrec --out monday.parquet")
        {
            input, output, site, columns.Time, columns.Pressure, overwrite,
        };
        command.SetAction(line =>
        {
            string path = line.GetRequiredValue(input);
            TraceColumns asked = TraceColumns.Parse(line.GetValue(columns.Time), line.GetValue(columns.Pressure));
            bool parquet = IsParquet(line.GetRequiredValue(output));
            RamSite ram = SiteOf(line.GetValue(site), path);
            using OutputFile file = OutputFile.Create(line.GetRequiredValue(output), line.GetValue(overwrite));
            TraceInput trace = TraceInput.Open(session, path, asked, ram);
            using IExportFile export = parquet
                ? new ParquetExport(file.Stream, trace.Columns, About(path))
                : new CsvExport(file.Stream, trace.Columns);
            return Run(session, trace, export, file);
        });
        return command;
    }

    private static int Run(Session session, TraceInput trace, IExportFile export, OutputFile file)
    {
        var rows = new GapFinder(export);
        session.WithProgress("Exporting", progress =>
        {
            trace.Read(rows.Add, progress, session.Stop);
            rows.Finish();
            return rows.Rows;
        });
        file.Commit();
        session.Say(string.Create(
            CultureInfo.InvariantCulture, $"Wrote {rows.Rows} samples with {rows.Gaps} gaps to {file.Path}"));
        foreach (string lack in trace.Lacks)
        {
            session.Warn($"{lack}.");
        }

        return trace.IsPartial || trace.SkippedRows > 0 ? ExitCode.DonePartly : ExitCode.Done;
    }

    private static bool IsParquet(string path) => Path.GetExtension(path).ToLowerInvariant() switch
    {
        ".parquet" => true,
        ".csv" => false,
        _ => throw new InputException($"{path}: export writes CSV or Parquet. End the file's name in .csv or .parquet."),
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
            return SiteFile.Parse(SiteTemplate.Text(Site.Quantities.Units.Metric), "the template");
        }

        return SiteDocuments.TryFind(RecordingScan.Of(input).Sessions.SelectMany(s => s.Documents), input)
            ?? throw new InputException($"{input} carries no site file. Say what its counts stand for with --site SITE.");
    }

    private static Dictionary<string, string> About(string path) => new(StringComparer.Ordinal)
    {
        ["source"] = Path.GetFileName(path),
        ["program"] = $"clackbeat {ProgramVersion.Number}",
        ["pressure"] = "gauge",
    };
}
