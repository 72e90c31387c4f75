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
    private const int SamplesPerReport = 10_000;

    private static readonly JsonSerializerOptions Readable = new()
    {
        WriteIndented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var input = new SimulateOptions();
        var trace = new Option<string>("--out")
        {
            Description = "Trace to write; the truth goes beside it as NAME.truth.json",
            HelpName = "FILE.csv",
            Required = true,
        };
        var overwrite = CommonOptions.Overwrite();
        var command = new ExampleCommand(
            "simulate",
            "Run a virtual ram made for a site and write its pressure trace, with the truth beside it",
            "simulate --site my-ram.toml --out well.csv",
            "simulate --site my-ram.toml --condition waste-valve-leaking --severity 0.3 --for 2min --out leaking.csv");
        command.Add(trace);
        input.AddTo(command);
        command.Add(overwrite);
        command.SetAction(line =>
        {
            var path = line.GetRequiredValue(trace);
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
        session.WithProgress("A virtual ram beats", progress => Write(ram, request.DurationS, csv, progress, session.Stop));
        truth.Stream.Write(Encoding.UTF8.GetBytes(TruthJson.Of(ram, request.Options, beats).ToJsonString(Readable)));
        csv.Commit();
        truth.Commit();
        session.Say(
            $"This ram exists only in the computer. Wrote its trace to {csv.Path} and what really happened to {truth.Path}");
        Summary(session, ram.Totals);
    }

    private static long Write(
        RamSimulation ram, double durationS, OutputFile csv, IProgress<double> progress, CancellationToken stop)
    {
        using var writer = new StreamWriter(csv.Stream, leaveOpen: true);
        writer.Write("t_s,p_kPa\n");
        var rows = 0L;
        foreach (var sample in ram.Samples(durationS))
        {
            writer.Write(string.Create(
                CultureInfo.InvariantCulture, $"{sample.TimeS:0.000000},{sample.PressurePa / 1000:0.000}\n"));
            if (++rows % SamplesPerReport == 0)
            {
                stop.ThrowIfCancellationRequested();
                progress.Report(sample.TimeS / durationS);
            }
        }

        return rows;
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
