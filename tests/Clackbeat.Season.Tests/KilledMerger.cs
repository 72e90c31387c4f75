using System.Globalization;
using Clackbeat.Season.Store;

namespace Clackbeat.Season.Tests;

/// <summary>
/// This test assembly run as a program: each round stores a burst under each of two names, writes a mark, joins the names, and parts them
/// again. It says the round's number once all of it is in the store, until it is killed.
/// </summary>
internal static class KilledMerger
{
    /// <summary>First argument of the program.</summary>
    public const string Word = "merge";

    private const string Old = "mill (old site file)";

    private static readonly CorrectionNote Note = new("anna", "one ram", DateTimeOffset.UnixEpoch);

    public static int Run(string name, int first)
    {
        using var store = (ICorrectableStore)SeasonStores.Open(name, create: true);
        Console.Out.WriteLine("open");
        for (int round = first; ; round++)
        {
            // What a kill left joined is parted first.
            if (store.Rams().Contains(KilledWriter.Ram) && !store.Rams().Contains(Old) && Joined(store) is { } left)
            {
                store.Undo(KilledWriter.Ram, left.Number, Note);
            }

            store.Add([KilledWriter.Burst(2 * round), KilledWriter.Burst((2 * round) + 1) with { Ram = Old }]);
            store.Add(Mark(round), Note);
            store.Merge(Old, KilledWriter.Ram, Note);
            store.Undo(KilledWriter.Ram, Joined(store)!.Number, Note);
            KilledProgram.Say(round);
        }
    }

    /// <summary>Runs it as another process and kills it; returns the last round that it said was done.</summary>
    public static int RunAndKill(string name, int first, int afterMs, bool afterRound) => KilledProgram.RunAndKill(
        typeof(KilledMerger).Assembly, [Word, name, first.ToString(CultureInfo.InvariantCulture)], afterMs, afterRound);

    /// <summary>Holds a store to its promises after a kill; returns the last round of which anything is in it.</summary>
    public static int AssertWhole(ICorrectableStore store, int first, int done)
    {
        Dictionary<string, List<string>> at = new[] { KilledWriter.Ram, Old }.ToDictionary(
            ram => ram, ram => store.Rams().Contains(ram) ? store.Bursts(ram, TimeSpanUtc.All).Select(b => b.Source).ToList() : []);
        string[] all = [.. at.Values.SelectMany(b => b)];
        Assert.Equal(all.Length, all.Distinct().Count());
        int last = Math.Max(done, first - 1);

        // A round that was killed on its way is there with both bursts or with none.
        last += all.Contains($"burst {2 * (last + 1)}") ? 1 : 0;
        Assert.Equal(Enumerable.Range(2, 2 * last).Select(n => $"burst {n}").Order(), all.Order());

        // Joined as a whole or not at all.
        Assert.True(at[Old].Count == 0 || at[Old].Count == last, $"{at[Old].Count} of {last} bursts stand under the old name");
        int[] marked = [.. store.Marks(KilledWriter.Ram).Select(RoundOf)];
        Assert.Equal(marked.Length, marked.Distinct().Count());
        Assert.All(Enumerable.Range(first, Math.Max(0, done - first + 1)), round => Assert.Contains(round, marked));
        return last;
    }

    private static MaintenanceMark Mark(int round) => new(KilledWriter.Ram, DateTimeOffset.UnixEpoch.AddMinutes(round), $"round {round}");

    private static int RoundOf(MaintenanceMark mark) => (int)(mark.AtUtc - DateTimeOffset.UnixEpoch).TotalMinutes;

    // The newest joining that nobody has undone.
    private static JournalEntry? Joined(ICorrectableStore store)
    {
        IReadOnlyList<JournalEntry> journal = store.Journal(KilledWriter.Ram);
        JournalEntry? newest = journal.Where(e => e.Action == JournalAction.RamMerged).MaxBy(e => e.Number);
        return newest is not null && journal.All(e => e.Action != JournalAction.Undone || e.Number < newest.Number) ? newest : null;
    }
}
