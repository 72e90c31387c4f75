using System.Data.Common;
using System.Globalization;
using Clackbeat.Site;

namespace Clackbeat.Season.Store;

/// <summary>
/// Corrects bursts and marks within a transaction of its caller, each with its entry in the journal. A burst that is taken out
/// keeps all its rows under a second ram, which only this class and the check for known hashes see.
/// </summary>
internal sealed class StoreCorrector(BurstWriter writer)
{
    public void Move(SeasonBurst burst, TimeSpan by, CorrectionNote note, DbTransaction transaction)
    {
        long id = IdOf(burst, transaction);
        DateTimeOffset becomes = burst.StartUtc + by;
        SetStart(id, becomes, transaction);
        Enter(writer.RamOf(burst.Ram, transaction), note, JournalAction.BurstMoved, id, burst.StartUtc, becomes, burst.Source, null, transaction);
    }

    public void Remove(SeasonBurst burst, JournalAction action, CorrectionNote note, DbTransaction transaction)
    {
        long ram = writer.RamOf(burst.Ram, transaction);
        long id = IdOf(burst, transaction);
        Hand(id, RemovedOf(burst.Ram, ram, transaction), transaction);
        Enter(ram, note, action, id, burst.StartUtc, null, burst.Source, null, transaction);
    }

    public void Add(MaintenanceMark mark, CorrectionNote note, DbTransaction transaction)
    {
        writer.Add(mark, transaction);
        Enter(writer.RamOf(mark.Ram, transaction), note, JournalAction.MarkAdded, null, mark.AtUtc, null, mark.Words, null, transaction);
    }

    public void Change(MaintenanceMark was, MaintenanceMark? becomes, CorrectionNote note, DbTransaction transaction)
    {
        writer.Remove(was, transaction);
        if (becomes is not null)
        {
            writer.Add(becomes, transaction);
        }

        Enter(
            writer.RamOf(was.Ram, transaction), note, becomes is null ? JournalAction.MarkRemoved : JournalAction.MarkChanged,
            null, was.AtUtc, becomes?.AtUtc, was.Words, becomes?.Words, transaction);
    }

    public void Undo(string name, JournalEntry entry, long? burst, CorrectionNote note, DbTransaction transaction)
    {
        long ram = writer.RamOf(name, transaction);
        switch (entry.Action)
        {
            case JournalAction.BurstMoved:
                Require(entry, writer.Scalar(transaction, "SELECT start_us FROM burst WHERE id = @p0 AND ram = @p1", burst, ram) is long start && start == StoreTime.Of(entry.IsUtc!.Value));
                SetStart(burst!.Value, entry.WasUtc, transaction);
                break;
            case JournalAction.BurstRemoved or JournalAction.BurstReplaced:
                Require(entry, writer.Scalar(transaction, "SELECT ram FROM burst WHERE id = @p0", burst) is long keeper && keeper == RemovedOf(name, ram, transaction));
                Hand(burst!.Value, ram, transaction);
                break;
            case JournalAction.MarkAdded:
                Require(entry, HasMark(ram, entry.WasUtc, entry.Was, transaction));
                writer.Remove(new MaintenanceMark(name, entry.WasUtc, entry.Was), transaction);
                break;
            case JournalAction.MarkChanged:
                var now = new MaintenanceMark(name, entry.IsUtc!.Value, entry.Becomes!);
                Require(entry, HasMark(ram, now.AtUtc, now.Words, transaction));
                writer.Remove(now, transaction);
                writer.Add(new MaintenanceMark(name, entry.WasUtc, entry.Was), transaction);
                break;
            case JournalAction.MarkRemoved:
                writer.Add(new MaintenanceMark(name, entry.WasUtc, entry.Was), transaction);
                break;
            default:
                throw InputException.Of("store.entry-undid", ("number", entry.Number));
        }

        Enter(ram, note, JournalAction.Undone, burst, entry.WasUtc, entry.IsUtc, entry.Was, entry.Number.ToString(CultureInfo.InvariantCulture), transaction);
    }

    private bool HasMark(long ram, DateTimeOffset at, string words, DbTransaction transaction) =>
        writer.Scalar(transaction, "SELECT id FROM mark WHERE ram = @p0 AND at_us = @p1 AND words = @p2", ram, StoreTime.Of(at), words) is not null;

    private static void Require(JournalEntry entry, bool isAsLeft)
    {
        if (!isAsLeft)
        {
            throw InputException.Of("store.entry-changed", ("number", entry.Number));
        }
    }

    private long IdOf(SeasonBurst burst, DbTransaction transaction) => writer.Scalar(
        transaction, "SELECT t.id FROM burst t JOIN ram r ON r.id = t.ram WHERE r.name = @p0 AND t.source_hash = @p1", burst.Ram, burst.SourceHash) as long?
        ?? throw InputException.Of("store.burst-gone", ("at", burst.StartUtc.LocalDateTime.ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture)));

    // Figures carry the start too, so that a plot reads one stretch of them.
    private void SetStart(long id, DateTimeOffset start, DbTransaction transaction)
    {
        writer.Run(
            transaction,
            "UPDATE figure SET start_us = @p1 WHERE ram = (SELECT ram FROM burst WHERE id = @p0) AND burst = @p0 AND start_us = (SELECT start_us FROM burst WHERE id = @p0)",
            id, StoreTime.Of(start));
        writer.Run(transaction, "UPDATE burst SET start_us = @p1 WHERE id = @p0", id, StoreTime.Of(start));
    }

    private void Hand(long id, long ram, DbTransaction transaction)
    {
        writer.Run(
            transaction,
            "UPDATE figure SET ram = @p1 WHERE ram = (SELECT ram FROM burst WHERE id = @p0) AND burst = @p0 AND start_us = (SELECT start_us FROM burst WHERE id = @p0)",
            id, ram);
        writer.Run(transaction, "UPDATE burst SET ram = @p1 WHERE id = @p0", id, ram);
    }

    private long RemovedOf(string name, long ram, DbTransaction transaction)
    {
        if (writer.Scalar(transaction, BurstWriter.FindRemoved, ram) is long known)
        {
            return known;
        }

        // No keeper types a line's end into a name.
        writer.Run(transaction, "INSERT INTO ram (name, removed_of) VALUES (@p0, @p1) ON CONFLICT DO NOTHING", $"{name}\n(removed)", ram);
        return (long)writer.Scalar(transaction, BurstWriter.FindRemoved, ram)!;
    }

    private void Enter(
        long ram, CorrectionNote note, JournalAction action, long? burst, DateTimeOffset was, DateTimeOffset? becomes, string wasText, string? becomesText,
        DbTransaction transaction) => writer.Run(
        transaction,
        string.Create(
            CultureInfo.InvariantCulture,
            $"""
            INSERT INTO journal (ram, at_us, who, what, burst, was_us, is_us, was, becomes, why)
            VALUES (@p0, @p1, @p2, @p3, {(burst is null ? "NULL" : "@p7")}, @p4, {(becomes is null ? "NULL" : burst is null ? "@p7" : "@p8")}, @p5, {(becomesText is null ? "NULL" : Parameter(burst, becomes))}, @p6)
            """),
        [
            ram, StoreTime.Of(note.AtUtc), note.Who, JournalWords.Word(action), StoreTime.Of(was), wasText, note.Why,
            .. burst is { } id ? [(object)id] : Array.Empty<object>(), .. becomes is { } time ? [(object)StoreTime.Of(time)] : Array.Empty<object>(),
            .. becomesText is { } text ? [(object)text] : Array.Empty<object>(),
        ]);

    // A null has no type of its own that every server would take for a number or a text, so it stands in the statement.
    private static string Parameter(long? burst, DateTimeOffset? becomes) =>
        string.Create(CultureInfo.InvariantCulture, $"@p{7 + (burst is null ? 0 : 1) + (becomes is null ? 0 : 1)}");
}
