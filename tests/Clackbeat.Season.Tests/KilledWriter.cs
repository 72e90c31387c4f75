using System.Security.Cryptography;
using Clackbeat.Season.Store;
using Clackbeat.Signal.Analysis;

namespace Clackbeat.Season.Tests;

/// <summary>
/// This test assembly run as a program: stores burst after burst and says each one's number once the store has taken it,
/// until it is killed.
/// </summary>
internal static class KilledWriter
{
    private const int ABatch = 3;

    public static int Main(string[] args)
    {
        if (args is not [string path, string first])
        {
            return 2;
        }

        using var store = SqliteSeasonStore.Open(path, create: true);
        Console.Out.WriteLine("open");
        for (int number = int.Parse(first, System.Globalization.CultureInfo.InvariantCulture); ; number += ABatch)
        {
            // The last of every batch comes again in the next, as it would from a logger that never heard that it was taken.
            store.Add([.. Enumerable.Range(number - 1, ABatch + 1).Select(Burst)]);
            Console.Out.WriteLine(number + ABatch - 1);
            Console.Out.Flush();
        }
    }

    public static SeasonBurst Burst(int number) => new()
    {
        Ram = "the ram at the mill",
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
