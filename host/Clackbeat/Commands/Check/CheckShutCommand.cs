using System.CommandLine;
using System.Text.Json.Nodes;
using Clackbeat.Commands.Analyse;
using Clackbeat.Frame;
using Clackbeat.Records.Sources;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.HandTests;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;

namespace Clackbeat.Commands.Check;

/// <summary><c>check shut INPUT</c>: reads a recording of the test with gate and waste valve shut, and keeps its verdict beside the site file.</summary>
internal static class CheckShutCommand
{
    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var columns = new RecordInput();
        Option<string> site = CommonOptions.Site();
        var intake = new Option<bool>("--gate-at-intake") { Description = "The gate that was shut stands at the intake and not at the ram: the drive pipe tells how much leaks" };
        Option<bool> json = CommonOptions.Json();
        var command = new ExampleCommand(
            "shut",
            "Read a recording of the test for leaking valves: waste valve held shut, then the gate shut, then let go",
            "check shut shut.cbrec --site my-ram.toml",
            "check shut shut.csv --site my-ram.toml --gate-at-intake")
        {
            columns.Input, site, columns.Time, columns.Pressure, columns.Absolute, intake, json,
        };
        command.MayEndWith(ExitCode.DonePartly);
        command.SetAction(line =>
        {
            string sitePath = line.GetRequiredValue(site);
            RamSite ram = SiteFile.Load(sitePath);
            string path = line.GetRequiredValue(columns.Input);
            ShutResult result = Read(session, RecordFile.Open(session, path, columns.Reading(line), ram), ram, line.GetValue(intake));
            return CheckLog.Keep(
                session, sitePath, Line(path, result), result.Evidence,
                result.Verdict == ShutVerdict.Unclear, line.GetValue(json));
        });
        return command;
    }

    private static ShutResult Read(Session session, ISampleSource source, RamSite ram, bool isGateAtIntake)
    {
        (double[] times, double[] pressures) = Samples(session, source);
        return ShutTest.Read(times, pressures, ram, isGateAtIntake);
    }

    /// <summary>All samples of a recording of a test, which lasts a minute at most.</summary>
    internal static (double[] TimesS, double[] PressuresPa) Samples(Session session, ISampleSource source)
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

    /// <summary>A line of the log.</summary>
    internal static JsonObject Line(string? path, ShutResult result) => CheckLog.Line("shut", path ?? "", result.Verdict.Code(), Figures(result), result.Evidence);

    private static IEnumerable<(string Name, JsonNode? Value)> Figures(ShutResult result) =>
    [
        ("static_kpa", JsonOut.Number(result.StaticPa / 1000, 2)),
        ("slope_kpa_per_s", JsonOut.Number(result.SlopePaPerS / 1000, 3)),
        ("end_kpa", JsonOut.Number(result.EndPa / 1000, 2)),
        ("leak_at_least_l_per_min", JsonOut.Number(result.LeastLeakM3PerS * 60_000, 3)),
    ];
}
