using System.CommandLine;
using System.Text.Json.Nodes;
using Clackbeat.Commands.Analyse;
using Clackbeat.Frame;
using Clackbeat.Records.Sources;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.HandTests;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Words;

namespace Clackbeat.Commands.Check;

/// <summary><c>check shut INPUT</c> and the other tests: reads a recording of a test and keeps its verdict in the log.</summary>
internal static class CheckReadingCommands
{
    /// <summary>Creates a command for each test, the cheapest first.</summary>
    public static IEnumerable<Command> All(Session session) =>
    [
        Repeat(session, new ExampleCommand("intake", "Tell whether clearing the intake has mended the ram, by a record before and one after", "check intake after.csv --site my-ram.toml --before monday.csv")),
        Level(session), Shut(session), Bucket(session),
        Repeat(session, new ExampleCommand("stroke", "Tell whether a shorter stroke changes what the beat shows, by a record before and one at it", "check stroke shorter.csv --site my-ram.toml --before monday.csv")),
        Repeat(session, new ExampleCommand("bleed", "Tell whether letting the air out of the drive pipe has mended the ram, by a record before and one after", "check bleed after.csv --site my-ram.toml --before monday.csv")),
        Repeat(session, new ExampleCommand("vent", "Tell whether fresh air in the vessel has mended the ram, by a record before and one after", "check vent after.csv --site my-ram.toml --before monday.csv")),
    ];

    /// <summary>Reads a recording of a test.</summary>
    /// <param name="session">The run.</param>
    /// <param name="test">The test.</param>
    /// <param name="path">The recording.</param>
    /// <param name="reading">How files are read.</param>
    /// <param name="ram">The ram.</param>
    /// <param name="bucket">What the bucket caught, for the test with one.</param>
    /// <param name="before">The record before, for a test that is a record made again.</param>
    /// <param name="isGateAtIntake">The gate that was shut stands at the intake.</param>
    public static HandReading Read(
        Session session, HandTest test, string path, RecordReading reading, RamSite ram, BucketTest? bucket = null, RamAnalysis? before = null, bool isGateAtIntake = false)
    {
        if (test.Code is HandTest.Shut or HandTest.Level)
        {
            (double[] times, double[] pressures) = Samples(session, RecordFile.Open(session, path, reading, ram));
            return test.Code == HandTest.Shut
                ? HandReading.Of(ShutTest.Read(times, pressures, ram, isGateAtIntake))
                : HandReading.Of(test.Code, LevelReading.Read(times, pressures, ram));
        }

        RamAnalysis record = RecordInput.Analyse(session, path, reading, ram);
        return HandReading.Of(test.Code, bucket is not null ? BucketReading.Read(record, bucket) : RepeatReading.Read(test.Code, before!, record));
    }

    private static ExampleCommand Shut(Session session)
    {
        var intake = new Option<bool>("--gate-at-intake") { Description = "The gate that was shut stands at the intake and not at the ram: the drive pipe tells how much leaks" };
        var command = new ExampleCommand(
            HandTest.Shut,
            "Read a recording of the test for leaking valves: waste valve held shut, then the gate shut, then let go",
            "check shut shut.cbrec --site my-ram.toml",
            "check shut shut.csv --site my-ram.toml --gate-at-intake")
        {
            intake,
        };
        return Reading(session, command, (line, columns, path, ram) =>
            Read(session, HandTest.Of(HandTest.Shut)!, path, columns.Reading(line), ram, isGateAtIntake: line.GetValue(intake)));
    }

    private static ExampleCommand Bucket(Session session)
    {
        var bucket = new Option<string>("--bucket") { Description = $"The bucket filled at the outlet meanwhile, such as \"{BucketText.Example}\"", Required = true };
        var command = new ExampleCommand(
            HandTest.Bucket,
            "Hold a bucket at the outlet against the delivered flow of the record made meanwhile",
            "check bucket monday.csv --site my-ram.toml --bucket \"delivery 12 L in 180 s\"")
        {
            bucket,
        };
        return Reading(session, command, (line, columns, path, ram) =>
            Read(session, HandTest.Of(HandTest.Bucket)!, path, columns.Reading(line), ram, bucket: BucketText.Parse(line.GetRequiredValue(bucket))));
    }

    private static ExampleCommand Level(Session session)
    {
        var command = new ExampleCommand(
            HandTest.Level,
            "Read the static level: waste valve held shut, gate open",
            "check level standing.csv --site my-ram.toml");
        return Reading(session, command, (line, columns, path, ram) => Read(session, HandTest.Of(HandTest.Level)!, path, columns.Reading(line), ram));
    }

    private static ExampleCommand Repeat(Session session, ExampleCommand command)
    {
        var before = new Option<string>("--before") { Description = "The record made before anything was done at the ram", HelpName = "INPUT", Required = true };
        command.Add(before);
        return Reading(session, command, (line, columns, path, ram) => Read(
            session, HandTest.Of(command.Name)!, path, columns.Reading(line), ram,
            before: RecordInput.Analyse(session, line.GetRequiredValue(before), columns.Reading(line), ram)));
    }

    private static ExampleCommand Reading(Session session, ExampleCommand command, Func<ParseResult, RecordInput, string, RamSite, HandReading> read)
    {
        var columns = new RecordInput();
        Option<string> site = CommonOptions.Site();
        Option<string?> log = CheckBook.Option();
        Option<bool> json = CommonOptions.Json();
        command.Add(columns.Input);
        foreach (Option option in new Option[] { site, columns.Time, columns.Pressure, columns.Absolute, log, json })
        {
            command.Add(option);
        }

        command.MayEndWith(ExitCode.DonePartly);
        command.SetAction(line =>
        {
            string sitePath = line.GetRequiredValue(site);
            string path = line.GetRequiredValue(columns.Input);
            RamSite ram = SiteFile.Load(sitePath);
            var book = CheckBook.Open(line.GetValue(log), sitePath);
            return Keep(session, book, read(line, columns, path, ram), path, line.GetValue(json));
        });
        return command;
    }

    private static int Keep(Session session, CheckBook book, HandReading reading, string path, bool isJson)
    {
        string file = Path.GetFileName(path);
        book.Keep(reading, file);
        if (isJson)
        {
            JsonOut.Write(session, reading.IsUnclear ? CheckBook.Line(reading, file) : (JsonObject)book.Lines[^1].DeepClone());
        }
        else
        {
            CheckTalk.Verdict(session, reading);
        }

        if (reading.IsUnclear)
        {
            return ExitCode.DonePartly;
        }

        if (!isJson && book.Newest is { } sequence)
        {
            CheckTalk.Causes(session, sequence);
        }

        session.Say(Phrases.Say("wrote.kept", ("file", book.Path)));
        return ExitCode.Done;
    }

    // A recording of such a test lasts a minute at most.
    private static (double[] TimesS, double[] PressuresPa) Samples(Session session, ISampleSource source)
    {
        var times = new List<double>();
        var pressures = new List<double>();
        RecordAnalysis.Read(source, (t, p) =>
        {
            times.AddRange(t);
            pressures.AddRange(p);
        }, null, session.Stop);
        return ([.. times], [.. pressures]);
    }
}
