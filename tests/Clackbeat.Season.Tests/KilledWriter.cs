using System.Globalization;
using System.Security.Cryptography;
using Clackbeat.Season.Store;
using Clackbeat.Signal.States;

namespace Clackbeat.Season.Tests;

/// <summary>
/// This test assembly run as a program: stores burst after burst and says each one's number once the store has taken it,
/// until it is killed.
/// </summary>
internal static class KilledWriter
{
    public const string Ram = "the ram at the mill";
    private const int ABatch = 3;

    public static int Main(string[] args)
    {
        if (args is [KilledMerger.Word, string merged, string from])
        {
            return KilledMerger.Run(merged, int.Parse(from, CultureInfo.InvariantCulture));
        }

        if (args is not [string name, string first, .. string[] outbox])
        {
            return 2;
        }

        using ISeasonStore store = outbox is [string file] ? SeasonStores.OpenBuffered(name, file) : SeasonStores.Open(name, create: true);
        Console.Out.WriteLine("open");
        for (int number = int.Parse(first, CultureInfo.InvariantCulture); ; number += ABatch)
        {
            // The last of every batch comes again in the next, as it would from a logger that never heard that it was taken.
            store.Add([.. Enumerable.Range(number - 1, ABatch + 1).Select(Burst)]);
            KilledProgram.Say(number + ABatch - 1);
        }
    }

    /// <summary>Runs it as another process and kills it.</summary>
    /// <param name="name">The store.</param>
    /// <param name="first">Number of the first burst.</param>
    /// <param name="afterMs">When to kill it, after it has opened the store or stored a burst.</param>
    /// <param name="afterStoring">Count from the first burst that it stored, so that a slow machine gets to store one.</param>
    /// <param name="outbox">Where to buffer; null to write straight to the store.</param>
    /// <returns>Number of the last burst that it said was stored; 0 for none.</returns>
    public static int RunAndKill(string name, int first, int afterMs, bool afterStoring, string? outbox = null)
    {
        string[] arguments = [name, first.ToString(CultureInfo.InvariantCulture)];
        return KilledProgram.RunAndKill(typeof(KilledWriter).Assembly, outbox is null ? arguments : [.. arguments, outbox], afterMs, afterStoring);
    }

    public static SeasonBurst Burst(int number) => new()
    {
        Ram = Ram,
        SourceHash = SHA256.HashData(BitConverter.GetBytes(number)),
        Source = $"burst {number}",
        StartUtc = DateTimeOffset.UnixEpoch.AddMinutes(15 * number),
        DurationS = 60,
        State = RamState.Beating,
        Figures = new Dictionary<SeasonFigure, SeasonValue>
        {
            [SeasonFigure.Rate] = new(50 + (0.001 * number), 0.1),
            [SeasonFigure.PeakMax] = new(4e5, null),
        },
        Conditions = new Dictionary<string, double> { ["healthy"] = 0.75 },
        Beats = [.. Enumerable.Range(0, 50).Select(i => new SeasonBeat(1.2 * i, 1.2, 4e5 + (100 * number), 2e5, -3e4, null))],
    };
}
