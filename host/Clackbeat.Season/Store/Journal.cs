namespace Clackbeat.Season.Store;

/// <summary>What was corrected.</summary>
public enum JournalAction
{
    /// <summary>A burst got another start.</summary>
    BurstMoved,

    /// <summary>A burst was taken out.</summary>
    BurstRemoved,

    /// <summary>The beginning of a recording that was still running gave way to the longer burst.</summary>
    BurstReplaced,

    /// <summary>A mark was added on the page.</summary>
    MarkAdded,

    /// <summary>A mark got another time or other words.</summary>
    MarkChanged,

    /// <summary>A mark was taken out.</summary>
    MarkRemoved,

    /// <summary>An earlier correction was undone.</summary>
    Undone,
}

/// <summary>An entry of the journal.</summary>
/// <param name="Number">Its number, by which it can be undone.</param>
/// <param name="AtUtc">When the correction was made.</param>
/// <param name="Who">Who made it.</param>
/// <param name="Action">What was done.</param>
/// <param name="WasUtc">Start of the burst or time of the mark as it stood before.</param>
/// <param name="IsUtc">The time it got; null where it got none.</param>
/// <param name="Was">The burst's source, or the mark's words, as they stood before.</param>
/// <param name="Becomes">The mark's new words, or the number of the entry that was undone; null where there are none.</param>
/// <param name="Why">Why.</param>
public sealed record JournalEntry(
    long Number, DateTimeOffset AtUtc, string Who, JournalAction Action, DateTimeOffset WasUtc, DateTimeOffset? IsUtc, string Was, string? Becomes, string Why);

/// <summary>Who corrects, when, and why.</summary>
/// <param name="Who">Name of the person.</param>
/// <param name="Why">The reason; not empty.</param>
/// <param name="AtUtc">When.</param>
public sealed record CorrectionNote(string Who, string Why, DateTimeOffset AtUtc);

/// <summary>The words of the store for actions.</summary>
internal static class JournalWords
{
    private static readonly Dictionary<JournalAction, string> Words = new()
    {
        [JournalAction.BurstMoved] = "burst-moved",
        [JournalAction.BurstRemoved] = "burst-removed",
        [JournalAction.BurstReplaced] = "burst-replaced",
        [JournalAction.MarkAdded] = "mark-added",
        [JournalAction.MarkChanged] = "mark-changed",
        [JournalAction.MarkRemoved] = "mark-removed",
        [JournalAction.Undone] = "undone",
    };

    public static string Word(JournalAction action) => Words[action];

    public static JournalAction Of(string word) => Words.First(w => w.Value == word).Key;
}
