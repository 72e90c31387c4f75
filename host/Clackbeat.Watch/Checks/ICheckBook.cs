using Clackbeat.Signal.HandTests;

namespace Clackbeat.Watch.Checks;

/// <summary>Keeps what a sequence of tests by hand showed, so that one that was broken off goes on where it stood.</summary>
public interface ICheckBook
{
    /// <summary>The newest sequence as it stands; null where none was begun.</summary>
    CheckSequence? Newest { get; }

    /// <summary>Keeps that a sequence was begun.</summary>
    /// <param name="sequence">What the record left open.</param>
    /// <param name="record">Name of the record; null for the newest minute of a live ram.</param>
    void Begin(CheckSequence sequence, string? record);

    /// <summary>Keeps what a test showed.</summary>
    /// <param name="reading">The reading.</param>
    /// <param name="file">Name of its recording; null where nothing was recorded.</param>
    void Keep(HandReading reading, string? file);
}
