using System.CommandLine;
using Clackbeat.Commands.Analyse;
using Clackbeat.Commands.Describe;
using Clackbeat.Frame;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Report;
using Clackbeat.Report.Export;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Watch.Figures;
using Clackbeat.Watch.Live;
using Clackbeat.Watch.Recordings;
using Clackbeat.Watch.Sources;
using Clackbeat.Watch.Web;

namespace Clackbeat.Commands.Watch;

/// <summary>watch: the live page of a ram, from a logger, a finished record or a virtual ram.</summary>
internal static class WatchCommand
{
    private const string Virtual = "virtual";

    public static Command Create(Session session)
    {
        var options = new WatchCommandOptions();
        var command = new ExampleCommand(
            "watch",
            "Show a ram live on a page in the browser: each beat, the figures, what is wrong; record and mark from there",
            "watch /dev/ttyUSB0 --site my-ram.toml",
            "watch virtual --site my-ram.toml",
            "watch monday.cbrec --site my-ram.toml --speed 5",
            "watch /dev/ttyUSB0 --site my-ram.toml --lan");
        options.AddTo(command);
        command.MayEndWith(ExitCode.Failed);
        command.SetAction(line => Run(session, options.Read(line)));
        return command;
    }

    private static int Run(Session session, WatchRequest request)
    {
        RamSite site = SiteFile.Load(request.Simulation.SitePath);
        string sitePath = request.Simulation.SitePath;
        LiveBaseline? baseline = RecordInput.ReadBaseline(session, request.Baseline, request.IsWithoutBaseline, sitePath, request.Reading, site) is { } well
            ? new LiveBaseline(well, Path.GetFileName(request.Baseline ?? SavedBaseline.PathOf(sitePath)))
            : null;
        using IWatchInput input = Open(session, request, site);
        var screen = new WatchScreen(session, request);
        WatchServer server = WatchServer.Start(
            new WatchOptions
            {
                Site = site,
                Source = input.Source,
                Desk = input.Desk,
                TuningFolder = input.ReplayPath is null ? request.Folder : null,
                RamKnob = input.Knob,
                Baseline = baseline,
                SaveBaseline = input.ReplayPath is null ? (times, pressures) => SavedBaseline.Save(sitePath, times, pressures) : null,
                Checks = input.ReplayPath is null ? CheckBook.Open(null, sitePath) : null,
                RamHands = input.Hands,
                Port = request.HttpPort,
                IsOpenToLan = request.IsOpenToLan,
                ReplayPath = input.ReplayPath,
                ReportOf = (recording, units, stop) => Report(recording, request.Reading, site with { Units = units }, baseline, stop),
                NewCode = screen.ShowCode,
                Told = screen.Tell,
            }).GetAwaiter().GetResult();
        try
        {
            screen.Open(server.Port);
            return Wait(session, request, server);
        }
        finally
        {
            server.DisposeAsync().AsTask().GetAwaiter().GetResult();
            screen.Close(input.Desk);
        }
    }

    // A finished replay stays on the page until somebody ends it.
    private static int Wait(Session session, WatchRequest request, WatchServer server)
    {
        using var over = CancellationTokenSource.CreateLinkedTokenSource(session.Stop);
        if (request.Length is { } length)
        {
            over.CancelAfter(length);
        }

        var ended = new TaskCompletionSource();
        using CancellationTokenRegistration register = over.Token.Register(() => ended.TrySetResult());
        server.Source.ContinueWith(_ => ended.TrySetResult(), CancellationToken.None, TaskContinuationOptions.OnlyOnFaulted, TaskScheduler.Default);
        ended.Task.Wait(CancellationToken.None);
        if (server.Source.Exception?.GetBaseException() is { } fault and not LineException)
        {
            throw fault is InputException ? fault : new IOException(fault.Message, fault);
        }

        if (server.Source.Exception?.GetBaseException() is LineException line)
        {
            session.Say(line.Message);
            return ExitCode.Failed;
        }

        return ExitCode.Done;
    }

    internal static IWatchInput Open(Session session, WatchRequest request, RamSite site)
    {
        IReadOnlyList<RecordingDocument> documents = SiteDocuments.Of(request.Simulation.SitePath);
        RecordingDesk Desk() => new(request.Folder, documents, ProgramVersion.Number, TimeProvider.System);
        if (request.Input == Virtual)
        {
            request.RefuseReplay();
            return new WatchVirtual(session, request, site, Desk());
        }

        request.RefuseVirtual();
        if (IsRecord(request.Input) && File.Exists(request.Input))
        {
            return new WatchReplay(RecordFile.Open(session, request.Input, request.Reading, site), request.Input, request.Speed);
        }

        request.RefuseReplay();
        RecordingDesk desk = Desk();
        return new WatchPort(
            new LoggerSource(new SerialLine(request.Input, request.Baud), site, request.Recorder(documents), desk, SourceKind.Logger), desk);
    }

    /// <summary>Whether an input is a file of samples and neither a port nor the virtual ram. A port is a file too on some systems, but one without a length.</summary>
    internal static bool IsRecord(string input) =>
        input != Virtual && !input.StartsWith("/dev/", StringComparison.Ordinal)
        && (File.Exists(input) ? (File.GetAttributes(input) & FileAttributes.Device) == 0 : Path.HasExtension(input));

    private static byte[] Report(string path, RecordReading reading, RamSite site, LiveBaseline? baseline, CancellationToken stop)
    {
        RamAnalysis analysis = RecordInput.Analyse(
            Session.OnStreams(TextWriter.Null, TextWriter.Null, stop), path, reading, site, baseline?.Analysis.Signature);
        using var page = new MemoryStream();
        ReportWriter.Write(page, ReportFormat.Html, site, analysis, baseline?.Analysis, DateTimeOffset.Now);
        return page.ToArray();
    }
}
