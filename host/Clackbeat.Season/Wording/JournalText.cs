using System.Globalization;
using Clackbeat.Season.Store;
using Clackbeat.Words;

namespace Clackbeat.Season.Wording;

/// <summary>Entries of the journal as a keeper reads them.</summary>
public static class JournalText
{
    /// <summary>One entry: its number, who, what and why.</summary>
    /// <param name="entry">The entry.</param>
    public static string Of(JournalEntry entry) => Phrases.Say(
        "trend.journal-entry", ("number", entry.Number), ("at", Time(entry.AtUtc)), ("who", entry.Who), ("what", What(entry)), ("why", entry.Why));

    /// <summary>A time by the clock on the wall.</summary>
    /// <param name="time">The time.</param>
    public static string Time(DateTimeOffset time) => time.LocalDateTime.ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture);

    private static string What(JournalEntry entry)
    {
        string was = Time(entry.WasUtc);
        return entry.Action switch
        {
            JournalAction.BurstMoved => Phrases.Say("trend.journal-moved", ("was", was), ("file", Path.GetFileName(entry.Was)), ("to", Time(entry.IsUtc!.Value))),
            JournalAction.BurstRemoved => Phrases.Say("trend.journal-removed", ("was", was), ("file", Path.GetFileName(entry.Was))),
            JournalAction.BurstReplaced => Phrases.Say("trend.journal-replaced", ("was", was), ("file", Path.GetFileName(entry.Was))),
            JournalAction.MarkAdded => Phrases.Say("trend.journal-mark-added", ("is", was), ("words", entry.Was)),
            JournalAction.MarkChanged => Phrases.Say(
                "trend.journal-mark-changed", ("was", was), ("words", entry.Was), ("to", Time(entry.IsUtc!.Value)), ("becomes", entry.Becomes ?? "")),
            JournalAction.MarkRemoved => Phrases.Say("trend.journal-mark-removed", ("was", was), ("words", entry.Was)),
            _ => Phrases.Say("trend.journal-undone", ("number", entry.Becomes ?? "")),
        };
    }
}
