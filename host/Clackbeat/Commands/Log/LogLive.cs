using Clackbeat.Commands.Describe;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Unattended.Live;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Surroundings;

namespace Clackbeat.Commands.Log;

/// <summary>log of loggers: runs until stopped, in a terminal or as a service.</summary>
internal static class LogLive
{
    /// <summary>Logs.</summary>
    public static int Run(Session session, LogSettings settings)
    {
        var world = new LogWorld { OpenStore = place => SeasonStores.OpenBuffered(place, Path.Combine(settings.Folder, "outbox.db")), Program = ProgramVersion.Number };
        using var run = new LogRun(settings, world, SiteDocuments.Of);
        using var screen = new LogScreen(session, run, settings);
        run.News = screen.Tell;
        screen.Begin();
        using var service = new LogServiceHost(() => run.QuietFor, session.Stop);
        run.Run(service.Stopping);
        screen.End();
        return ExitCode.Done;
    }
}
