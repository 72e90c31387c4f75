using Clackbeat.Site;

namespace Clackbeat.Season.Store;

/// <summary>A season store whose bursts and marks can be corrected: the file, or the server itself.</summary>
public interface ICorrectableStore : ISeasonStore
{
    /// <summary>Gives bursts another start, all by the same time.</summary>
    /// <param name="bursts">The bursts, of one ram.</param>
    /// <param name="by">How much later they began.</param>
    /// <param name="note">Who and why.</param>
    void Move(IReadOnlyCollection<SeasonBurst> bursts, TimeSpan by, CorrectionNote note);

    /// <summary>Takes bursts out; they are not stored again when their recordings are logged once more.</summary>
    /// <param name="bursts">The bursts.</param>
    /// <param name="note">Who and why.</param>
    void Remove(IReadOnlyCollection<SeasonBurst> bursts, CorrectionNote note);

    /// <summary>Stores a mark and notes in the journal who made it.</summary>
    /// <param name="mark">The mark.</param>
    /// <param name="note">Who and why.</param>
    void Add(MaintenanceMark mark, CorrectionNote note);

    /// <summary>Changes a mark's time or words.</summary>
    /// <param name="was">The mark as it stands.</param>
    /// <param name="becomes">What it shall be; null takes it out.</param>
    /// <param name="note">Who and why.</param>
    void Change(MaintenanceMark was, MaintenanceMark? becomes, CorrectionNote note);

    /// <summary>Undoes a correction.</summary>
    /// <param name="ram">Name of the ram.</param>
    /// <param name="number">Number of the journal's entry.</param>
    /// <param name="note">Who and why.</param>
    /// <exception cref="InputException">There is no such entry, or what it left was changed since.</exception>
    void Undo(string ram, long number, CorrectionNote note);

    /// <summary>What was corrected, oldest first.</summary>
    /// <param name="ram">Name of the ram.</param>
    IReadOnlyList<JournalEntry> Journal(string ram);
}
