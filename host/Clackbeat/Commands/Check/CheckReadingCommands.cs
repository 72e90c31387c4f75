using System.CommandLine;
using Clackbeat.Commands.Analyse;
using Clackbeat.Frame;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.HandTests;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;

namespace Clackbeat.Commands.Check;

/// <summary><c>check bucket INPUT</c> and <c>check level INPUT</c>: two more tests by hand, read from a recording.</summary>
internal static class CheckReadingCommands
{
    /// <summary>Creates <c>check bucket</c>.</summary>
    public static Command Bucket(Session session)
    {
        var bucket = new Option<string>("--bucket") { Description = $"The bucket filled at the outlet meanwhile, such as \"{BucketText.Example}\"", Required = true };
        var command = new ExampleCommand(
            "bucket",
            "Hold a bucket at the outlet against the delivered flow of the record made meanwhile",
            "check bucket monday.csv --site my-ram.toml --bucket \"delivery 12 L in 180 s\"")
        {
            bucket,
        };
        return Reading(session, command, (line, columns, path, ram) =>
        {
            RamAnalysis record = RecordInput.Analyse(session, path, columns.Reading(line), ram);
            return BucketReading.Read(record, BucketText.Parse(line.GetRequiredValue(bucket)));
        });
    }

    /// <summary>Creates <c>check level</c>.</summary>
    public static Command Level(Session session)
    {
        var command = new ExampleCommand(
            "level",
            "Read the static level: waste valve held shut, gate open",
            "check level standing.csv --site my-ram.toml");
        return Reading(session, command, (line, columns, path, ram) =>
        {
            (double[] times, double[] pressures) = CheckShutCommand.Samples(session, RecordFile.Open(session, path, columns.Reading(line), ram));
            return LevelReading.Read(times, pressures, ram);
        });
    }

    private static ExampleCommand Reading(Session session, ExampleCommand command, Func<ParseResult, RecordInput, string, RamSite, TestResult> read)
    {
        var columns = new RecordInput();
        Option<string> site = CommonOptions.Site();
        Option<bool> json = CommonOptions.Json();
        command.Add(columns.Input);
        foreach (Option option in new Option[] { site, columns.Time, columns.Pressure, columns.Absolute, json })
        {
            command.Add(option);
        }

        command.MayEndWith(ExitCode.DonePartly);
        command.SetAction(line =>
        {
            string sitePath = line.GetRequiredValue(site);
            string path = line.GetRequiredValue(columns.Input);
            TestResult result = read(line, columns, path, SiteFile.Load(sitePath));
            return CheckLog.Keep(
                session, sitePath, CheckLog.Line(command.Name, path, result.Verdict.Code(), [], result.Evidence), result.Evidence,
                result.Verdict == TestVerdict.Unclear, line.GetValue(json));
        });
        return command;
    }
}
