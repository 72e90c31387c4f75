namespace Clackbeat.Words;

/// <summary>A piece of a phrase: words, or the place of a value that somebody else writes.</summary>
/// <param name="Words">The words; null for a place.</param>
/// <param name="Place">The value's name; null for words.</param>
public readonly record struct PhrasePiece(string? Words, string? Place);
