using Clackbeat.Signal.States;
using Clackbeat.Site;

namespace Clackbeat.Season.Store;

/// <summary>States by the words every output of the program uses.</summary>
internal static class StoredState
{
    private static readonly (RamState State, string Word)[] Words =
    [
        (RamState.Beating, "beating"),
        (RamState.StoppedShut, "stopped-shut"),
        (RamState.StoppedOpen, "stopped-open"),
        (RamState.NoSignal, "no-signal"),
    ];

    private static readonly Dictionary<string, RamState> ByWord = Words.ToDictionary(w => w.Word, w => w.State, StringComparer.Ordinal);

    /// <summary>The word of a state.</summary>
    public static string Word(RamState state) => Words.First(w => w.State == state).Word;

    /// <summary>The state of a word; null for no such word.</summary>
    public static RamState? Find(string word) => ByWord.TryGetValue(word, out RamState state) ? state : null;

    /// <summary>The state of a word.</summary>
    /// <exception cref="InputException">A later program's word.</exception>
    public static RamState Of(string word) => Find(word) ?? throw InputException.Of("store.strange-state", ("state", word));
}
