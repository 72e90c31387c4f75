using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using Clackbeat.Commands.Analyse;
using Clackbeat.Frame;
using Clackbeat.Records.Sources;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.HandTests;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Words;

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
            JsonObject kept = Json(path, result);
            if (line.GetValue(json))
            {
                JsonOut.Write(session, kept);
            }
            else
            {
                session.Out.WriteLine(Catalogue.Current.Say(new Fact("tests.verdict." + Code(result.Verdict), [])));
                Layout.Bullets(session, [.. Catalogue.Current.Say(result.Evidence)]);
            }

            if (result.Verdict == ShutVerdict.Unclear)
            {
                return ExitCode.DonePartly;
            }

            string log = Path.ChangeExtension(SavedBaseline.PathOf(sitePath), null)[..^".baseline".Length] + ".checks.jsonl";
            File.AppendAllText(log, kept.ToJsonString() + "\n");
            session.Say(Phrases.Say("wrote.kept", ("file", log)));
            return ExitCode.Done;
        });
        return command;
    }

    private static ShutResult Read(Session session, ISampleSource source, RamSite ram, bool isGateAtIntake)
    {
        var times = new List<double>();
        var pressures = new List<double>();
        RecordAnalysis.Read(source, (t, p) =>
        {
            times.AddRange(t);
            pressures.AddRange(p);
        }, null, session.Stop);
        return ShutTest.Read([.. times], [.. pressures], ram, isGateAtIntake);
    }

    private static JsonObject Json(string path, ShutResult result) => new()
    {
        ["test"] = "shut",
        ["file"] = Path.GetFileName(path),
        ["read_utc"] = DateTimeOffset.UtcNow.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture),
        ["verdict"] = Code(result.Verdict),
        ["static_kpa"] = JsonOut.Number(result.StaticPa / 1000, 2),
        ["slope_kpa_per_s"] = JsonOut.Number(result.SlopePaPerS / 1000, 3),
        ["end_kpa"] = JsonOut.Number(result.EndPa / 1000, 2),
        ["leak_at_least_l_per_min"] = JsonOut.Number(result.LeastLeakM3PerS * 60_000, 3),
        ["evidence"] = new JsonArray([.. Catalogue.Current.Say(result.Evidence).Select(e => (JsonNode)JsonValue.Create(e))]),
    };

    private static string Code(ShutVerdict verdict) => verdict switch
    {
        ShutVerdict.BothHold => "both-hold",
        ShutVerdict.DeliveryValveLeaks => "delivery-valve-leaks",
        ShutVerdict.WasteValveLeaks => "waste-valve-leaks",
        ShutVerdict.BothLeak => "both-leak",
        _ => "unclear",
    };
}
