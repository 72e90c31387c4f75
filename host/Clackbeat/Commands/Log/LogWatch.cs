using Clackbeat.Commands.Analyse;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.Unattended.Intake;
using Clackbeat.Unattended.Surroundings;
using Clackbeat.Words;

namespace Clackbeat.Commands.Log;

/// <summary>log --watch: takes what comes into a folder, until stopped.</summary>
internal static class LogWatch
{
    private static readonly TimeSpan LookEvery = TimeSpan.FromSeconds(2);

    /// <summary>Watches.</summary>
    public static int Run(Session session, string folder, RecordReading reading, RamSite ram, string store, bool keepsTwins)
    {
        if (!IsUsable(folder))
        {
            throw InputException.Of("logging.watch-no-folder", ("folder", folder));
        }

        using ISeasonStore open = SeasonStores.Open(store, create: true);
        var ingest = new SeasonIngest(session, open, ram, reading, null, keepsTwins ? new TwinOfDay(open, ram, session.Stop) : null);
        var watch = new FolderWatch(folder, file => Take(ingest, open, file), TimeProvider.System, news => Tell(session, news));
        session.Say(Phrases.Say("logging.watch-begin", ("folder", folder), ("store", SeasonStores.Shown(store))));
        using var service = new LogServiceHost(() => TimeSpan.Zero, session.Stop);
        do
        {
            watch.Look(service.Stopping);
        }
        while (!service.Stopping.WaitHandle.WaitOne(LookEvery));
        return ExitCode.Done;
    }

    private static string? Take(SeasonIngest ingest, ISeasonStore store, string file)
    {
        string? refusal = ingest.TakeOne(ingest.Of(file));
        if (refusal is not null)
        {
            // A store that can't be used is no fault of the file: this throws, and the file is tried again.
            store.Rams();
        }

        return refusal;
    }

    private static bool IsUsable(string folder)
    {
        try
        {
            string probe = Path.Combine(folder, ".clackbeat-probe");
            File.WriteAllText(probe, "");
            File.Delete(probe);
            return true;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    /// <summary>Tells news as a line.</summary>
    internal static void Tell(Session session, LogNews news)
    {
        if (news.IsTrouble)
        {
            session.Warn(news.Words);
        }
        else
        {
            session.Say(news.Words);
        }
    }
}
