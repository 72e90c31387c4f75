using System.CommandLine;
using Clackbeat.Commands.Analyse;
using Clackbeat.Commands.Describe;
using Clackbeat.Frame;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;
using Clackbeat.Records.Sources;
using Clackbeat.Report.Export;
using Clackbeat.Report.TuningSheets;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Tuning.Trials;
using Clackbeat.Tuning.Twins;
using Clackbeat.Words;

namespace Clackbeat.Commands.Tune;

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
            "tune drop valve.tune 3",
            "tune next valve.tune", "tune sheet valve.tune --out valve.pdf", "tune demo");
        command.Add(New(session));
        command.Add(Add(session));
        command.Add(Drop(session));
        command.Add(Next(session));
        command.Add(Sheet(session));
        command.Add(TuneDemo.Create(session));
        return command;
    }

    private static Command New(Session session)
    {
        Argument<string> file = SessionArgument();
        Option<string> site = CommonOptions.Site();
        var knob = new Option<string>("--knob") { Description = "What is turned and from where to where, such as \"stroke 4 mm to 12 mm\" or \"weight 200 g to 900 g by 50 g\"", HelpName = "RANGE", Required = true };
        var aim = new Option<string>("--for") { Description = $"What for: {string.Join(", ", TuningAims.All)}", HelpName = "AIM", DefaultValueFactory = _ => TuningAim.MostDelivered.Word() };
        var enough = new Option<string?>("--enough") { Description = "Least delivered flow that still is enough, for gentlest-peak; left out: half of the most that was delivered", HelpName = "FLOW" };
        var now = new Option<string?>("--now") { Description = "How it is set now, to begin there; left out: the middle of the range", HelpName = "SETTING" };
        Option<bool> overwrite = CommonOptions.Overwrite();
        var command = new Command("new", "Begin a session") { file, site, knob, now, aim, enough, overwrite };
        command.SetAction(line =>
        {
            RamSite ram = SiteFile.Load(line.GetRequiredValue(site));
            var turned = Knob.Parse(line.GetRequiredValue(knob));
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
            using (var claim = OutputFile.Create(path, line.GetValue(overwrite)))
            {
                claim.Commit();
            }

            SessionFile.Save(path, begun);
            session.Say(Phrases.Say("tuning.begun", ("file", path), ("ram", ram.Name), ("aim", begun.Aim.Meaning())));
            TuneText.Write(session, begun, path);
            return ExitCode.Done;
        });
        return command;
    }

    private static Command Add(Session session)
    {
        Argument<string> file = SessionArgument();
        var input = new Argument<string>("INPUT") { Description = "Recording or trace of a minute at this setting" };
        Option<string> site = CommonOptions.Site();
        var at = new Option<string>("--at") { Description = "What was set, such as \"8 mm\"", HelpName = "SETTING", Required = true };
        var table = new RecordInput();
        var sameRam = new Option<bool>("--same-ram") { Description = "Take it although the recording looks like another ram's" };
        var noTwin = new Option<bool>("--no-twin") { Description = "Fit no twin: the flows are the record's alone, and the search knows nothing but the trials" };
        var command = new Command("add", "Add a trial") { file, input, site, at, table.Time, table.Pressure, table.Absolute, sameRam, noTwin };
        command.SetAction(line =>
        {
            string path = line.GetRequiredValue(file);
            TuningSession known = SessionFile.Load(path);
            RamSite ram = SiteFile.Load(line.GetRequiredValue(site));
            if (ram.Name != known.Ram)
            {
                throw InputException.Of("tuning.other-site", ("known", known.Ram), ("ram", ram.Name));
            }

            double setting = known.Knob.Setting(line.GetRequiredValue(at));
            string record = line.GetRequiredValue(input);
            (Trial trial, RamAnalysis analysis) = Read(session, record, table.Reading(line), ram, setting);
            TuneDoubts.Heed(session, record, known, TrialDoubts.Of(known, ram, trial, RamOf(record)), line.GetValue(sameRam), ram.Units);
            TuningSession longer = known.With(line.GetValue(noTwin) ? trial : WithTwin(session, known, ram, trial, analysis));
            SessionFile.Save(path, longer);
            TuneText.Write(session, longer, path);
            return ExitCode.Done;
        });
        return command;
    }

    private static Command Drop(Session session)
    {
        Argument<string> file = SessionArgument();
        var number = new Argument<int>("TRIAL") { Description = "Number of the trial, as 'tune next' shows it" };
        var command = new Command("drop", "Take a trial back; its recording stays") { file, number };
        command.SetAction(line =>
        {
            string path = line.GetRequiredValue(file);
            TuningSession known = SessionFile.Load(path);
            int at = line.GetValue(number);
            if (at < 1 || at > known.Trials.Count)
            {
                throw known.Trials.Count == 0
                    ? InputException.Of("tuning.nothing-to-drop", ("file", path))
                    : InputException.Of("tuning.no-trial", ("file", path), ("trial", at), ("trials", known.Trials.Count));
            }

            Trial dropped = known.Trials[at - 1];
            TuningSession shorter = known.Without(at - 1);
            SessionFile.Save(path, shorter);
            session.Say(dropped.Note.Length > 0
                ? Phrases.Say("tuning.dropped-recording", ("trial", at), ("knob", known.Knob.Name), ("setting", known.Knob.Text(dropped.Setting)), ("file", dropped.Note))
                : Phrases.Say("tuning.dropped", ("trial", at), ("knob", known.Knob.Name), ("setting", known.Knob.Text(dropped.Setting))));
            TuneText.Write(session, shorter, path);
            return ExitCode.Done;
        });
        return command;
    }

    private static Command Next(Session session)
    {
        Argument<string> file = SessionArgument();
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
        Argument<string> file = SessionArgument();
        var output = new Option<string>("--out") { Description = "The sheet, HTML or PDF by its ending", HelpName = "FILE", Required = true };
        var us = new Option<bool>("--us") { Description = "Begin with US customary units; left out: those of the site file" };
        Option<bool> overwrite = CommonOptions.Overwrite();
        var command = new Command("sheet", "Write a sheet to print") { file, output, us, overwrite };
        command.SetAction(line =>
        {
            TuningSession known = SessionFile.Load(line.GetRequiredValue(file));
            if (known.Trials.Count == 0)
            {
                throw InputException.Of("tuning.nothing-to-print");
            }

            WriteSheet(session, known, line.GetRequiredValue(output), line.GetValue(us) ? Units.Us : known.Units, line.GetValue(overwrite));
            return ExitCode.Done;
        });
        return command;
    }

    internal static void WriteSheet(Session session, TuningSession tuned, string path, Units units, bool overwrite)
    {
        ReportFormat format = ReportFormats.FromPath(path);
        using var output = OutputFile.Create(path, overwrite);
        TuningSheetWriter.Write(output.Stream, format, tuned, units, DateTimeOffset.Now);
        output.Commit();
        session.Say(Phrases.Say("wrote.file", ("file", path)));
    }

    private static Trial WithTwin(Session session, TuningSession known, RamSite ram, Trial trial, RamAnalysis analysis)
    {
        if (!trial.Works)
        {
            return trial;
        }

        Trial told = session.WithProgress(Phrases.Say("whatif.fitting"), _ => TrialTwin.Of(known, ram, analysis, trial, session.Stop));
        if (!told.HasTwin)
        {
            session.Say(Phrases.Say("tune.no-twin"));
        }

        return told;
    }

    private static (Trial Trial, RamAnalysis Analysis) Read(Session session, string path, RecordReading reading, RamSite ram, double setting)
    {
        ISampleSource source = RecordFile.Open(session, path, reading, ram);
        var reader = new TrialReader(ram);
        session.WithProgress(Phrases.Say("wrote.reading", ("file", Path.GetFileName(path))), progress =>
        {
            RecordAnalysis.Read(source, reader.Add, progress, session.Stop);
            return 0;
        });
        foreach (Fact lack in source.Faults.Lacks)
        {
            session.Warn(Phrases.Say("wrote.file-warning", ("file", path), ("what", lack)));
        }

        Trial trial = reader.Finish(setting, Path.GetFileName(path), source.Board);
        return (trial, reader.Analysis!);
    }

    // Whose ram it is by the site file that travels in a recording; a table carries none.
    private static string? RamOf(string path) => BlockReader.IsRecording(path)
        ? SiteDocuments.TryFind(RecordingScan.Of(path).Sessions.SelectMany(s => s.Documents), path)?.Name
        : null;

    private static Argument<string> SessionArgument() => new("SESSION") { Description = "File of the tuning session" };
}
