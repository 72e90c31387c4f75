using System.CommandLine;
using Clackbeat.Commands.Analyse;
using Clackbeat.Commands.Describe;
using Clackbeat.Commands.Rate;
using Clackbeat.Frame;
using Clackbeat.Recording.Capture;
using Clackbeat.Report;
using Clackbeat.Report.Content;
using Clackbeat.Report.Export;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Clackbeat.Words;

namespace Clackbeat.Commands.Simulate;

/// <summary>
/// demo: the main job on a virtual ram behind a virtual logger, so that it can be seen without a pump or a sensor.
/// </summary>
internal static class DemoCommand
{
    /// <summary>Least length of the demo's recording [s].</summary>
    public const double RecordS = 60;

    /// <summary>Name of the demo's recording.</summary>
    public const string RecordingName = "demo.cbrec";

    /// <summary>Name of the demo's site file.</summary>
    public const string SiteName = "site.toml";

    public static Command Create(Session session)
    {
        var folder = new Option<string>("--out")
        {
            Description = "Folder for the report and the trace; created if missing",
            HelpName = "DIR",
            DefaultValueFactory = _ => "clackbeat-demo",
        };
        var command = new ExampleCommand(
            "demo", "Run the main job on a virtual ram and write its report", "demo", "demo --out my-folder")
        {
            folder,
        };
        command.MayEndWith(ExitCode.DonePartly);
        command.SetAction(line =>
        {
            string path = Directory.CreateDirectory(line.GetRequiredValue(folder)).FullName;
            OutputFile.WriteText(Path.Combine(path, SiteName), SiteTemplate.Text(Units.Metric), overwrite: true);
            RamSite site = SiteFile.Load(Path.Combine(path, SiteName));
            (RamAnalysis analysis, RecorderSummary recorded) = Record(session, site, Chain(site), path);
            WriteReport(path, site, analysis, TwinAdvice.ForReport(session, site, analysis, null));
            AnalysisText.WriteFirst(session, site, analysis, baseline: null);
            session.Say(
                Phrases.Say("virtual.demo", ("record", RecordingName), ("site", SiteName), ("folder", path)));
            if (recorded.IsWhole)
            {
                return ExitCode.Done;
            }

            session.Warn(Phrases.Say("virtual.samples-lost"));
            return ExitCode.DonePartly;
        });
        return command;
    }

    /// <summary>The demo's ram.</summary>
    internal static VirtualChain Chain(RamSite site)
    {
        RamDesign design = RamDesigner.Design(site);
        return new VirtualChain(site, design, design.Sensor, new SimulationOptions());
    }

    /// <summary>From the ram through logger, line and recorder into a recording, and as analyse reads it from there.</summary>
    internal static (RamAnalysis Analysis, RecorderSummary Recorded) Record(
        Session session, RamSite site, VirtualChain chain, string folder)
    {
        string recording = Path.Combine(folder, RecordingName);
        RecorderSummary recorded = session.WithProgress(Phrases.Say("virtual.beats"), progress => DemoRecording.Run(
            chain.Source, recording, SiteDocuments.Of(Path.Combine(folder, SiteName)), RecordS, progress, session.Stop));
        return (RecordInput.Analyse(session, recording, RecordReading.Default, site), recorded);
    }

    private static void WriteReport(string folder, RamSite site, RamAnalysis analysis, TwinPart twin)
    {
        using (var beats = OutputFile.Create(Path.Combine(folder, "beats.csv"), overwrite: true))
        {
            beats.WriteAndCommit(writer => BeatCsv.Write(writer, analysis.BeatList));
        }

        using var report = OutputFile.Create(Path.Combine(folder, "report.html"), overwrite: true);
        ReportWriter.Write(report.Stream, ReportFormat.Html, site, analysis, baseline: null, DateTimeOffset.Now, twin);
        report.Commit();
    }
}
