using Clackbeat.Frame;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.VirtualRam.Design;
using Clackbeat.Words;

namespace Clackbeat.Commands.Simulate;

/// <summary>simulate --serve: a virtual ram behind a virtual logger, for any program that opens a serial port.</summary>
internal static class SimulateServe
{
    private const int PollMilliseconds = 100;

    public static int Run(Session session, SimulationRequest request, VirtualLoggerOptions options)
    {
        if (!VirtualLogger.VirtualLogger.CanServe)
        {
            throw InputException.Of("option.no-serve");
        }

        RamSite site = SiteFile.Load(request.SitePath);
        RamDesign design = request.Design(site);
        foreach (Fact warning in design.Warnings)
        {
            session.Warn(Catalogue.Current.Say(warning));
        }

        var chain = new VirtualChain(site, design, request.On(design.Sensor), request.Options);
        using ServedLogger logger = VirtualLogger.VirtualLogger.Serve(chain.Source, chain.Fitted(options), session.Stop);
        session.Out.WriteLine(logger.PortPath);
        session.Out.Flush();
        session.Say(Phrases.Say("virtual.serves"));
        DateTime? end = request.DurationGiven ? DateTime.UtcNow.AddSeconds(request.DurationS) : null;
        while (!session.Stop.IsCancellationRequested && !logger.Completion.IsCompleted && !(DateTime.UtcNow >= end))
        {
            session.Stop.WaitHandle.WaitOne(PollMilliseconds);
        }

        if (logger.Completion.IsFaulted)
        {
            throw logger.Completion.Exception!.GetBaseException();
        }

        session.Say(logger.Completion.IsCompleted && !session.Stop.IsCancellationRequested
            ? Phrases.Say("virtual.cable-pulled")
            : Phrases.Say("virtual.logger-ended"));
        return ExitCode.Done;
    }
}
