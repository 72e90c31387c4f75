using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report;
using Clackbeat.Report.Export;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;

namespace Clackbeat.Commands;

/// <summary>demo: the main job on a virtual ram, so that it can be seen without a pump or a sensor.</summary>
internal static class DemoCommand
{
    private const double RecordS = 60;

    public static Command Create(Session session)
    {
        var folder = new Option<string>("--out")
        {
            Description = "Folder for the report and the trace; made when missing",
            HelpName = "DIR",
            DefaultValueFactory = _ => "clackbeat-demo",
        };
        var command = new ExampleCommand(
            "demo", "Run the main job on a virtual ram and write its report", "demo", "demo --out my-folder")
        {
            folder,
        };
        command.SetAction(line =>
        {
            string path = Directory.CreateDirectory(line.GetRequiredValue(folder)).FullName;
            string siteText = SiteTemplate.Text(Units.Metric);
            RamSite site = SiteFile.Parse(siteText, "the demo's site file");
            RamAnalysis analysis = session.WithProgress("A virtual ram beats", progress => Beat(site, path, progress, session.Stop));
            OutputFile.WriteText(Path.Combine(path, "site.toml"), siteText, overwrite: true);
            WriteReport(path, site, analysis, PipeAdvice.ForReport(session, site));
            AnalysisText.Write(session, site, analysis, baseline: null);
            session.Say($"The ram of this demo exists only in the computer. Wrote report.html, beats.csv, trace.csv and site.toml to {path}");
            return ExitCode.Done;
        });
        return command;
    }

    private static RamAnalysis Beat(RamSite site, string folder, IProgress<double> progress, CancellationToken stop)
    {
        RamDesign design = RamDesigner.Design(site);
        var ram = new RamSimulation(design.Ram, design.Sensor);
        var analyser = new RamAnalyser(site);
        using OutputFile file = OutputFile.Create(Path.Combine(folder, "trace.csv"), overwrite: true);
        VirtualTrace.Write(
            ram, RecordS, file.Stream, progress, stop, s => analyser.Add([s.TimeS], [s.PressurePa]));
        file.Commit();
        return analyser.Finish("trace.csv");
    }

    private static void WriteReport(string folder, RamSite site, RamAnalysis analysis, RemedyTable? remedies)
    {
        using (OutputFile beats = OutputFile.Create(Path.Combine(folder, "beats.csv"), overwrite: true))
        {
            beats.WriteAndCommit(writer => BeatCsv.Write(writer, analysis.BeatList));
        }

        using OutputFile report = OutputFile.Create(Path.Combine(folder, "report.html"), overwrite: true);
        ReportWriter.Write(report.Stream, ReportFormat.Html, site, analysis, baseline: null, DateTimeOffset.Now, remedies);
        report.Commit();
    }
}
