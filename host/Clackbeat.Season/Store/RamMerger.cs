using System.Data.Common;
using System.Globalization;
using Clackbeat.Site;

namespace Clackbeat.Season.Store;

/// <summary>
/// Joins two names of one ram, and parts them again. Bursts and marks of the old name go over to the one that stays, except those that it has
/// already: they stay behind, hidden with the old name.
/// </summary>
internal sealed class RamMerger(BurstWriter writer)
{
    private const string Find = "SELECT id FROM ram WHERE name = @p0 AND removed_of IS NULL";

    /// <summary>Joins.</summary>
    public void Merge(string name, string into, CorrectionNote note, DbTransaction transaction)
    {
        long from = IdOf(name, transaction);
        long to = IdOf(into, transaction);
        if (from == to)
        {
            throw InputException.Of("store.merge-itself", ("ram", name));
        }

        if (writer.Scalar(transaction, "SELECT name FROM ram WHERE merged_into = @p0 LIMIT 1", from) is string other)
        {
            throw InputException.Of("store.merge-twice", ("ram", name), ("other", other), ("into", into));
        }

        HandAll(from, to, "merged_from = @p0 WHERE ram = @p0 AND source_hash NOT IN (SELECT source_hash FROM burst WHERE ram = @p1)", transaction);
        writer.Run(
            transaction,
            "UPDATE mark SET ram = @p1, merged_from = @p0 WHERE ram = @p0 AND NOT EXISTS (SELECT 1 FROM mark m WHERE m.ram = @p1 AND m.at_us = mark.at_us AND m.words = mark.words)",
            from, to);
        writer.Run(transaction, "UPDATE ram SET removed_of = @p1, merged_into = @p1 WHERE id = @p0", from, to);
        new StoreCorrector(writer).Enter(to, note, JournalAction.RamMerged, null, note.AtUtc, null, name, into, transaction);
    }

    /// <summary>Parts; what came under the old name since then goes back with it.</summary>
    /// <returns>False where the names aren't joined any more.</returns>
    public bool Part(string name, long into, DbTransaction transaction)
    {
        if (writer.Scalar(transaction, "SELECT id FROM ram WHERE name = @p0 AND merged_into = @p1", name, into) is not long from)
        {
            return false;
        }

        HandAll(into, from, "merged_from = NULL WHERE ram = @p0 AND merged_from = @p1", transaction);
        writer.Run(transaction, "UPDATE mark SET ram = @p1, merged_from = NULL WHERE ram = @p0 AND merged_from = @p1", into, from);
        writer.Run(transaction, "UPDATE ram SET removed_of = NULL, merged_into = NULL WHERE id = @p0", from);
        return true;
    }

    // Figures carry the ram too, so that a plot reads one stretch of them.
    private void HandAll(long from, long to, string which, DbTransaction transaction)
    {
        writer.Run(transaction, string.Create(CultureInfo.InvariantCulture, $"UPDATE burst SET ram = @p1, {which}"), from, to);
        writer.Run(transaction, "UPDATE figure SET ram = @p1 WHERE ram = @p0 AND burst IN (SELECT id FROM burst WHERE ram = @p1)", from, to);
    }

    private long IdOf(string name, DbTransaction transaction) => writer.Scalar(transaction, Find, name) as long?
        ?? throw InputException.Of("store.merge-nobody", ("ram", name));
}
