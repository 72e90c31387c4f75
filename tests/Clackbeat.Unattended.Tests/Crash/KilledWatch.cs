using System.Globalization;
using System.Security.Cryptography;
using Clackbeat.Season.Store;
using Clackbeat.Signal.States;
using Clackbeat.Unattended.Intake;
using Clackbeat.Unattended.Tests.Bench;

namespace Clackbeat.Unattended.Tests.Crash;

/// <summary>
/// This test assembly run as a program: it takes what lies in a folder into a season store and says how many files it has taken, until
/// it is killed.
/// </summary>
internal static class KilledWatch
{
    /// <summary>First argument of the program.</summary>
    public const string Word = "watch";

    /// <summary>What a file holds that can't be used.</summary>
    public const string Bad = "bad";

    private const string Ram = "the ram at the mill";

    public static int Run(string folder, string name)
    {
        using ISeasonStore store = SeasonStores.Open(name, create: true);
        int taken = 0;
        var clock = new BenchClock(LogBench.Start);
        var watch = new FolderWatch(folder, file => Take(store, file, () => KilledProgram.Say(++taken)), clock, _ => { });
        Console.Out.WriteLine("open");
        while (true)
        {
            Pass(watch, clock);
        }
    }

    /// <summary>One look, long after the last.</summary>
    public static void Pass(FolderWatch watch, BenchClock clock)
    {
        clock.Advance(FolderWatch.Settled + TimeSpan.FromSeconds(1));
        watch.Look(CancellationToken.None);
    }

    /// <summary>Takes a file as a burst whose hash is that of its content, as a recording's is.</summary>
    public static string? Take(ISeasonStore store, string file, Action said)
    {
        string text = File.ReadAllText(file);
        if (text == Bad)
        {
            return "no table";
        }

        store.Add([new SeasonBurst
        {
            Ram = Ram,
            SourceHash = SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(text)),
            Source = text,
            StartUtc = DateTimeOffset.UnixEpoch.AddMinutes(int.Parse(text, CultureInfo.InvariantCulture)),
            DurationS = 60,
            State = RamState.StoppedShut,
            Figures = new Dictionary<SeasonFigure, SeasonValue>(),
        }]);
        said();
        return null;
    }

    /// <summary>What a store holds, in order.</summary>
    public static IEnumerable<string> Stored(ISeasonStore store) =>
        store.Rams().Count == 0 ? [] : store.Bursts(Ram, TimeSpanUtc.All).Select(b => b.Source);
}
