using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Recording.Link;
using Clackbeat.Report;
using Clackbeat.Report.Export;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;

namespace Clackbeat.Commands;

/// <summary>
/// demo: the main job on a virtual ram behind a virtual logger, so that it can be seen without a pump or a sensor.
/// </summary>
internal static class DemoCommand
{
    /// <summary>Length of the demo's record [s].</summary>
    public const double RecordS = 60;

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
            VirtualChain chain = Chain(site);
            (RamAnalysis analysis, LossAccount losses) = session.WithProgress(
                "A virtual ram beats", progress => Record(site, chain, path, progress, session.Stop));
            OutputFile.WriteText(Path.Combine(path, "site.toml"), siteText, overwrite: true);
            WriteReport(path, site, analysis, PipeAdvice.ForReport(session, site));
            AnalysisText.Write(session, site, analysis, baseline: null);
            session.Say(
                "The ram of this demo and its logger exist only in the computer; the firmware, the line and all that follows "
                + $"are real. Wrote report.html, beats.csv, trace.csv and site.toml to {path}");
            if (losses.IsClean)
            {
                return ExitCode.Done;
            }

            session.Warn("Some samples were lost between the virtual logger and this program, which should never happen.");
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

    /// <summary>From the ram through logger, line and conversion into a trace file and its analysis.</summary>
    internal static (RamAnalysis Analysis, LossAccount Losses) Record(
        RamSite site, VirtualChain chain, string folder, IProgress<double> progress, CancellationToken stop)
    {
        SensorConversion conversion = SiteSensing.ConversionOf(site);
        var analyser = new RamAnalyser(site);
        long? firstUs = null;
        LossAccount losses;
        using OutputFile file = OutputFile.Create(Path.Combine(folder, "trace.csv"), overwrite: true);
        using (var writer = new StreamWriter(file.Stream, leaveOpen: true))
        {
            VirtualTrace.WriteHeader(writer);
            losses = DemoCapture.Run(chain.Source, RecordS, Take, progress, stop);

            void Take(LoggerSample sample)
            {
                firstUs ??= sample.DeviceTimeMicroseconds;
                double timeS = (sample.DeviceTimeMicroseconds - firstUs.Value) * 1e-6;
                double pressurePa = conversion.PressurePaAt(sample.Counts, sample.SupplyCounts);
                VirtualTrace.WriteRow(writer, timeS, pressurePa);
                analyser.Add([timeS], [pressurePa]);
            }
        }

        file.Commit();
        return (analyser.Finish("trace.csv"), losses);
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
