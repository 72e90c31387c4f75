using System.CommandLine;
using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Clackbeat.Frame;
using Clackbeat.Site;
using Clackbeat.Site.Files;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.Commands;

/// <summary>simulate: a virtual ram's trace, and the truth about it beside the trace.</summary>
internal static class SimulateCommand
{
    private static readonly JsonSerializerOptions Readable = new()
    {
        WriteIndented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var input = new SimulateOptions();
        var served = new ServeOptions();
        var trace = new Option<string?>("--out")
        {
            Description = "Trace to write; the truth goes beside it as NAME.truth.json",
            HelpName = "FILE.csv",
        };
        var overwrite = CommonOptions.Overwrite();
        var command = new ExampleCommand(
            "simulate",
            "Run a virtual ram made for a site: write its pressure trace with the truth beside it, or serve it as a logger",
            "simulate --site my-ram.toml --out well.csv",
            "simulate --site my-ram.toml --condition waste-valve-leaking --severity 0.3 --for 2min --out leaking.csv",
            "simulate --site my-ram.toml --serve");
        command.Add(trace);
        input.AddTo(command);
        command.Add(overwrite);
        served.AddTo(command);
        command.SetAction(line =>
        {
            var path = line.GetValue(trace);
            if (line.GetValue(served.Serve))
            {
                return path is null
                    ? SimulateServe.Run(session, input.Read(line), served.Read(line, input.Read(line)))
                    : throw new InputException("--serve offers a logger on a port and writes no trace. Leave out --out, or --serve.");
            }

            served.RefuseAll(line);
            if (path is null)
            {
                throw new InputException("simulate needs a place for its trace: give --out FILE.csv, or --serve to offer a logger on a port.");
            }

            if (!path.EndsWith(".csv", StringComparison.OrdinalIgnoreCase))
            {
                throw new InputException($"{path}: simulate writes a CSV trace. End the file's name in .csv.");
            }

            var run = input.Read(line);
            using var csv = OutputFile.Create(path, line.GetValue(overwrite));
            using var truth = OutputFile.Create(Path.ChangeExtension(path, ".truth.json"), line.GetValue(overwrite));
            Run(session, run, csv, truth);
            return ExitCode.Done;
        });
        return command;
    }

    private static void Run(Session session, SimulationRequest request, OutputFile csv, OutputFile truth)
    {
        var design = RamDesigner.Design(SiteFile.Load(request.SitePath), request.Character);
        foreach (var warning in design.Warnings)
        {
            session.Warn(warning);
        }

        var ram = new RamSimulation(design.Ram, request.On(design.Sensor), request.Options);
        var beats = new List<VirtualBeat>();
        ram.BeatEnded += beats.Add;
        session.WithProgress("A virtual ram beats", progress =>
        {
            VirtualTrace.Write(ram, request.DurationS, csv.Stream, progress, session.Stop);
            return ram.Totals;
        });
        truth.Stream.Write(Encoding.UTF8.GetBytes(TruthJson.Of(ram, request.Options, beats).ToJsonString(Readable)));
        csv.Commit();
        truth.Commit();
        session.Say(
            $"This ram exists only in the computer. Wrote its trace to {csv.Path} and what really happened to {truth.Path}");
        Summary(session, ram.Totals);
    }

    private static void Summary(Session session, RamTotals totals)
    {
        if (totals.Beats == 0)
        {
            session.Out.WriteLine("No whole beat: this ram does not run.");
            return;
        }

        string Litres(double volumeM3) =>
            string.Create(CultureInfo.InvariantCulture, $"{volumeM3 / totals.DurationS * 60_000:0.00} L/min");
        Layout.Pairs(session,
        [
            ("Whole beats", totals.Beats.ToString(CultureInfo.InvariantCulture)),
            ("Rate", string.Create(CultureInfo.InvariantCulture, $"{totals.BeatsPerMin:0.00} a minute")),
            ("Delivered", Litres(totals.DeliveredM3)),
            ("To waste", Litres(totals.WasteM3)),
            ("Efficiency (D'Aubuisson)", string.Create(CultureInfo.InvariantCulture, $"{100 * totals.DAubuisson:0.0} %")),
        ]);
    }
}
