using System.Diagnostics;
using System.Globalization;
using Clackbeat.Season.Overview;
using Clackbeat.Season.Store;

namespace Clackbeat.Benchmarks.Whole;

/// <summary>
/// A store of many rams over years: how long all rams and one ram's years take, and how fast writers of their own processes fill it, while they
/// and the server are killed if asked. Everything that a writer was told is stored is counted afterwards.
/// </summary>
internal static class ManyRams
{
    private const int BurstsADay = 4;
    private static readonly SeasonFigure[] Plotted = [SeasonFigure.Delivered, SeasonFigure.Rate, SeasonFigure.Efficiency, SeasonFigure.PeakMax, SeasonFigure.RatingUse];

    public static void Run(string name, ManyRamsPlan plan)
    {
        Say($"load {Load()} at the start");
        using (ISeasonStore store = SeasonStores.Open(name, create: true))
        {
            if (store.Rams().Count == 0)
            {
                long began = Stopwatch.GetTimestamp();
                HistoryMaker.Fill(name, store, plan.Rams, plan.Years * 365 * BurstsADay);
                Say($"{plan.Rams} rams, {plan.Years} years: made in {Stopwatch.GetElapsedTime(began).TotalMinutes:0.0} min");
            }

            Read(store, plan);
        }

        if (plan.WriteS > 0)
        {
            var writers = new WriterHerd(name, plan);
            writers.Run();
            using ISeasonStore store = SeasonStores.Open(name, create: false);
            writers.Count(store);
        }

        Say($"load {Load()} at the end");
    }

    private static void Read(ISeasonStore store, ManyRamsPlan plan)
    {
        string ram = HistoryMaker.NameOf(plan.Rams / 2);
        var noList = new Dictionary<string, RamEntry>();
        Time("all rams summed up and judged", () => VisitRules.Judge(((IOverviewStore)store).Summaries(), noList, DateTimeOffset.UtcNow).Count);
        Time("one ram's years: a figure", () => store.Series(ram, SeasonFigure.Delivered, TimeSpanUtc.All).Count);
        Time("one ram's years: five figures, states and marks", () =>
            Plotted.Sum(f => store.Series(ram, f, TimeSpanUtc.All).Count) + store.States(ram, TimeSpanUtc.All).Count + store.Marks(ram).Count);
    }

    private static void Time(string what, Func<int> work)
    {
        var took = new List<double>();
        int found = 0;
        for (int i = 0; i < 5; i++)
        {
            long began = Stopwatch.GetTimestamp();
            found = work();
            took.Add(Stopwatch.GetElapsedTime(began).TotalSeconds);
        }

        Say($"{what}: {took[0]:0.000} s the first time, {took.Order().ElementAt(2):0.000} s the middle of five ({found} rows, load {Load()})");
    }

    internal static void Say(FormattableString words) => Console.WriteLine(words.ToString(CultureInfo.InvariantCulture));

    internal static string Load() => File.Exists("/proc/loadavg") ? File.ReadAllText("/proc/loadavg").Split(' ')[0] : "unknown";
}

/// <summary>What is made and measured.</summary>
/// <param name="Rams">Rams of the history.</param>
/// <param name="Years">Years of the history.</param>
/// <param name="Writers">Processes that write at once.</param>
/// <param name="WriteS">For how long they write [s]; 0 for not at all.</param>
/// <param name="ABatch">Bursts a transaction.</param>
/// <param name="KillEveryS">Kill one of them so often [s]; 0 for never.</param>
/// <param name="Crash">A command that crashes and restarts the server, run three times meanwhile; empty for none.</param>
internal sealed record ManyRamsPlan(int Rams, int Years, int Writers, int WriteS, int ABatch, double KillEveryS, string Crash);
