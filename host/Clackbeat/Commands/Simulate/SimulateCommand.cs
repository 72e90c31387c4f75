using System.CommandLine;
using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Clackbeat.Frame;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Truth;
using Clackbeat.Words;

namespace Clackbeat.Commands.Simulate;

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
            Description = "Trace to write; the true values go beside it as NAME.truth.json",
            HelpName = "FILE.csv",
        };
        Option<bool> overwrite = CommonOptions.Overwrite();
        var command = new ExampleCommand(
            "simulate",
            "Run a virtual ram made for a site: write its pressure trace with the true values beside it, or serve it as a logger",
            "simulate --site my-ram.toml --out well.csv",
            "simulate --site my-ram.toml --condition waste-valve-leaking --severity 0.3 --for 2min --out leaking.csv",
            "simulate --site my-ram.toml --serve");
        command.Add(trace);
        input.AddTo(command);
        command.Add(overwrite);
        served.AddTo(command);
        command.SetAction(line =>
        {
            string? path = line.GetValue(trace);
            if (line.GetValue(served.Serve))
            {
                return path is null
                    ? SimulateServe.Run(session, input.Read(line), served.Read(line, input.Read(line)))
                    : throw InputException.Of("option.serve-or-out");
            }

            served.RefuseAll(line);
            if (path is null)
            {
                throw InputException.Of("option.simulate-where");
            }

            if (!path.EndsWith(".csv", StringComparison.OrdinalIgnoreCase))
            {
                throw InputException.Of("input.simulate-ending", ("file", path));
            }

            SimulationRequest run = input.Read(line);
            using var csv = OutputFile.Create(path, line.GetValue(overwrite));
            using var truth = OutputFile.Create(Path.ChangeExtension(path, ".truth.json"), line.GetValue(overwrite));
            Run(session, run, csv, truth);
            return ExitCode.Done;
        });
        return command;
    }

    private static void Run(Session session, SimulationRequest request, OutputFile csv, OutputFile truth)
    {
        RamSite site = SiteFile.Load(request.SitePath);
        RamDesign design = request.Design(site);
        foreach (Fact warning in design.Warnings)
        {
            session.Warn(Catalogue.Current.Say(warning));
        }

        var ram = new RamSimulation(design.Ram, request.On(design.Sensor), request.Options);
        var beats = new List<VirtualBeat>();
        ram.BeatEnded += beats.Add;
        session.WithProgress(Phrases.Say("virtual.beats"), progress =>
        {
            VirtualTrace.Write(ram, request.DurationS, csv.Stream, progress, session.Stop);
            return ram.Totals;
        });
        truth.Stream.Write(Encoding.UTF8.GetBytes(TruthJson.Of(ram, request.Options, beats).ToJsonString(Readable)));
        csv.Commit();
        truth.Commit();
        session.Say(
            Phrases.Say("virtual.wrote", ("trace", csv.Path), ("truth", truth.Path)));
        Summary(session, ram.Totals, site.Units);
    }

    private static void Summary(Session session, RamTotals totals, Units units)
    {
        if (totals.Beats == 0)
        {
            session.Out.WriteLine(Phrases.Say("virtual.no-beat"));
            return;
        }

        string Flow(double volumeM3) => QuantityFormat.Format(QuantityKind.Flow, volumeM3 / totals.DurationS, units);
        Layout.Pairs(session,
        [
            (Phrases.Say("virtual.whole-beats"), totals.Beats.ToString(CultureInfo.InvariantCulture)),
            (Phrases.Say("bench.rate"), Phrases.Say("virtual.rate", ("rate", totals.BeatsPerMin!.Value))),
            (Phrases.Say("trend.delivered"), Flow(totals.DeliveredM3)),
            (Phrases.Say("trend.waste"), Flow(totals.WasteM3)),
            (Phrases.Say("trend.efficiency"), string.Create(CultureInfo.InvariantCulture, $"{100 * totals.DAubuisson:0.0} %")),
        ]);
    }
}
