using Clackbeat.Frame;
using Clackbeat.Site;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualRam.Design;

namespace Clackbeat.Commands;

/// <summary>simulate --serve: a virtual ram behind a virtual logger, for any program that opens a serial port.</summary>
internal static class SimulateServe
{
    private const int GlanceMilliseconds = 100;

    public static int Run(Session session, SimulationRequest request, VirtualLoggerOptions options)
    {
        if (!VirtualLogger.VirtualLogger.CanServe)
        {
            throw new InputException(
                "This system has no serial ports that a program can make, so simulate --serve can't work here; it does on "
                + "Linux and macOS. To see the whole way from a ram to a report, run 'clackbeat demo', which needs no port.");
        }

        RamSite site = SiteFile.Load(request.SitePath);
        RamDesign design = RamDesigner.Design(site, request.Character);
        foreach (string warning in design.Warnings)
        {
            session.Warn(warning);
        }

        var chain = new VirtualChain(site, design, request.On(design.Sensor), request.Options);
        using ServedLogger logger = VirtualLogger.VirtualLogger.Serve(chain.Source, options, session.Stop);
        session.Out.WriteLine(logger.PortPath);
        session.Out.Flush();
        session.Say("A virtual logger answers on this port as a board would. Ctrl-C ends it.");
        DateTime? end = request.DurationGiven ? DateTime.UtcNow.AddSeconds(request.DurationS) : null;
        while (!session.Stop.IsCancellationRequested && !logger.Completion.IsCompleted && !(DateTime.UtcNow >= end))
        {
            session.Stop.WaitHandle.WaitOne(GlanceMilliseconds);
        }

        if (logger.Completion.IsFaulted)
        {
            throw logger.Completion.Exception!.GetBaseException();
        }

        session.Say(logger.Completion.IsCompleted && !session.Stop.IsCancellationRequested
            ? "The cable was pulled, as ordered."
            : "The virtual logger ended.");
        return ExitCode.Done;
    }
}
