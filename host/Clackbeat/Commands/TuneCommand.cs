using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Report;
using Clackbeat.Report.TuningSheets;
using Clackbeat.Signal.Traces;
using Clackbeat.Site;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Tuning.Trials;

namespace Clackbeat.Commands;

/// <summary>tune: the waste valve, trial by trial.</summary>
internal static class TuneCommand
{
    public static Command Create(Session session)
    {
        var command = new ExampleCommand(
            "tune",
            "Tune the waste valve: say what was set, add a minute's recording, read what to try next",
            "tune new valve.tune --site my-ram.toml --knob \"stroke 4 mm to 12 mm\"",
            "tune add valve.tune first.cbrec --site my-ram.toml --at \"8 mm\"",
            "tune next valve.tune", "tune sheet valve.tune --out valve.pdf", "tune demo");
        command.Add(New(session));
        command.Add(Add(session));
        command.Add(Next(session));
        command.Add(Sheet(session));
        command.Add(TuneDemo.Create(session));
        return command;
    }

    private static Command New(Session session)
    {
        var file = SessionArgument();
        var site = CommonOptions.Site();
        var knob = new Option<string>("--knob") { Description = "What is turned and from where to where, such as \"stroke 4 mm to 12 mm\" or \"weight 200 g to 900 g by 50 g\"", HelpName = "RANGE", Required = true };
        var aim = new Option<string>("--for") { Description = $"What for: {string.Join(", ", TuningAims.All)}", HelpName = "AIM", DefaultValueFactory = _ => TuningAim.MostDelivered.Word() };
        var enough = new Option<string?>("--enough") { Description = "Least delivered flow that still is enough, for gentlest-peak; left out: half of the most that was delivered", HelpName = "FLOW" };
        var now = new Option<string?>("--now") { Description = "How it is set now, to begin there; left out: the middle of the range", HelpName = "SETTING" };
        var overwrite = CommonOptions.Overwrite();
        var command = new Command("new", "Begin a session") { file, site, knob, now, aim, enough, overwrite };
        command.SetAction(line =>
        {
            RamSite ram = SiteFile.Load(line.GetRequiredValue(site));
            Knob turned = Knob.Parse(line.GetRequiredValue(knob));
            var begun = new TuningSession
            {
                Ram = ram.Name,
                Knob = turned,
                Now = line.GetValue(now) is { } setting ? turned.Within(turned.Setting(setting)) : null,
                Units = ram.Units,
                Aim = TuningAims.Parse(line.GetRequiredValue(aim)),
                EnoughM3PerS = line.GetValue(enough) is { } flow ? QuantityText.Parse(QuantityKind.Flow, flow) : null,
            };
            string path = line.GetRequiredValue(file);
            using (OutputFile claim = OutputFile.Create(path, line.GetValue(overwrite)))
            {
                claim.Commit();
            }

            SessionFile.Save(path, begun);
            session.Say($"{path}: tuning {ram.Name} for {begun.Aim.Meaning()}.");
            TuneText.Write(session, begun, path);
            return ExitCode.Done;
        });
        return command;
    }

    private static Command Add(Session session)
    {
        var file = SessionArgument();
        var input = new Argument<string>("INPUT") { Description = "Recording or trace of a minute at this setting" };
        var site = CommonOptions.Site();
        var at = new Option<string>("--at") { Description = "What was set, such as \"8 mm\"", HelpName = "SETTING", Required = true };
        var command = new Command("add", "Add a trial") { file, input, site, at };
        command.SetAction(line =>
        {
            string path = line.GetRequiredValue(file);
            TuningSession known = SessionFile.Load(path);
            RamSite ram = SiteFile.Load(line.GetRequiredValue(site));
            if (ram.Name != known.Ram)
            {
                throw new InputException($"The session is about {known.Ram}, the site file about {ram.Name}. Name the site file it was begun with.");
            }

            double setting = known.Knob.Setting(line.GetRequiredValue(at));
            string record = line.GetRequiredValue(input);
            TuningSession longer = known.With(Read(session, record, ram, setting));
            SessionFile.Save(path, longer);
            TuneText.Write(session, longer, path);
            return ExitCode.Done;
        });
        return command;
    }

    private static Command Next(Session session)
    {
        var file = SessionArgument();
        var command = new Command("next", "Show the trials and what to try next") { file };
        command.SetAction(line =>
        {
            string path = line.GetRequiredValue(file);
            TuneText.Write(session, SessionFile.Load(path), path);
            return ExitCode.Done;
        });
        return command;
    }

    private static Command Sheet(Session session)
    {
        var file = SessionArgument();
        var output = new Option<string>("--out") { Description = "The sheet, HTML or PDF by its ending", HelpName = "FILE", Required = true };
        var us = new Option<bool>("--us") { Description = "Begin with US customary units; left out: those of the site file" };
        var overwrite = CommonOptions.Overwrite();
        var command = new Command("sheet", "Write a sheet to print") { file, output, us, overwrite };
        command.SetAction(line =>
        {
            TuningSession known = SessionFile.Load(line.GetRequiredValue(file));
            if (known.Trials.Count == 0)
            {
                throw new InputException("The session has no trial yet, so there is nothing to print.");
            }

            WriteSheet(session, known, line.GetRequiredValue(output), line.GetValue(us) ? Units.Us : known.Units, line.GetValue(overwrite));
            return ExitCode.Done;
        });
        return command;
    }

    internal static void WriteSheet(Session session, TuningSession tuned, string path, Units units, bool overwrite)
    {
        ReportFormat format = ReportFormats.FromPath(path);
        using OutputFile output = OutputFile.Create(path, overwrite);
        TuningSheetWriter.Write(output.Stream, format, tuned, units, DateTimeOffset.Now);
        output.Commit();
        session.Say($"Wrote {path}");
    }

    private static Trial Read(Session session, string path, RamSite ram, double setting)
    {
        TraceInput trace = TraceInput.Open(session, path, TraceColumns.Parse(null, null), ram);
        var reader = new TrialReader(ram);
        session.WithProgress($"Reading {Path.GetFileName(path)}", progress =>
        {
            trace.Read(row => reader.Add([row.TimeS], [row.PressurePa]), progress, session.Stop);
            return 0;
        });
        foreach (string lack in trace.Lacks)
        {
            session.Warn($"{path}: {lack}.");
        }

        return reader.Finish(setting, Path.GetFileName(path));
    }

    private static Argument<string> SessionArgument() => new("SESSION") { Description = "File of the tuning session" };
}
