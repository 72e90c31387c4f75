using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Site;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Tuning.Search;
using Clackbeat.Tuning.Trials;
using Clackbeat.Tuning.Twins;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Sensing;
using Clackbeat.Words;

namespace Clackbeat.Commands.Tune;

/// <summary>tune demo: the stroke of a virtual ram, tuned by its pressure alone.</summary>
internal static class TuneDemo
{
    private const double TrialS = 60;
    private const double ShortestShare = 0.5;
    private const double LongestShare = 1.6;

    public static Command Create(Session session)
    {
        var folder = new Option<string>("--out") { Description = "Folder for the session and its sheet", HelpName = "DIR", DefaultValueFactory = _ => "clackbeat-tuning" };
        var command = new Command("demo", "Tune a virtual ram, to see how it goes") { folder };
        command.SetAction(line => Run(session, line.GetRequiredValue(folder)));
        return command;
    }

    private static int Run(Session session, string folder)
    {
        string path = Directory.CreateDirectory(folder).FullName;
        string file = Path.Combine(path, "valve.tune");
        if (File.Exists(file))
        {
            throw InputException.Of("input.exists-other-folder", ("file", file));
        }

        RamSite site = SiteFile.Parse(SiteTemplate.Text(Units.Metric), SiteTemplate.Name);
        RamDesign design = RamDesigner.Design(site);
        double strokeMm = 1000 * design.Ram.WasteValve.TravelM;
        var tuning = new TuningSession
        {
            Ram = site.Name,
            Knob = new Knob { Name = "stroke", Unit = "mm", Lowest = Math.Round(ShortestShare * strokeMm, 1), Highest = Math.Round(LongestShare * strokeMm, 1), Step = 0.1 },
            Aim = TuningAim.MostDelivered,
        };
        tuning = session.WithProgress(Phrases.Say("virtual.tuned"), progress => Tune(session, site, design, tuning, strokeMm, progress));
        SessionFile.Save(file, tuning);
        TuneText.Write(session, tuning, file);
        TuneCommand.WriteSheet(session, tuning, Path.Combine(path, "sheet.html"), site.Units, overwrite: true);
        TuneCommand.WriteSheet(session, tuning, Path.Combine(path, "sheet.pdf"), site.Units, overwrite: true);
        session.Say(Phrases.Say("virtual.only"));
        return ExitCode.Done;
    }

    private static TuningSession Tune(
        Session session, RamSite site, RamDesign design, TuningSession tuning, double nowMm, IProgress<double> progress)
    {
        while (NextSetting.Of(tuning, nowMm).Setting is { } settingMm)
        {
            var ram = new RamSimulation(
                design.Ram with { WasteValve = design.Ram.WasteValve with { TravelM = settingMm / 1000 } },
                design.Sensor, new SimulationOptions { Seed = tuning.Trials.Count + 1 });
            var reader = new TrialReader(site);
            foreach (VirtualSample sample in ram.Samples(TrialS))
            {
                session.Stop.ThrowIfCancellationRequested();
                reader.Add([sample.TimeS], [sample.PressurePa]);
            }

            Trial trial = reader.Finish(settingMm, "virtual");
            tuning = tuning.With(TrialTwin.Of(tuning, site, reader.Analysis!, trial, session.Stop));
            progress.Report(tuning.Trials.Count / (double)TuningSession.MostTrials);
        }

        return tuning;
    }
}
