namespace Clackbeat.Season.Store;

/// <summary>
/// The server of a season store doesn't answer, or can't take anything now. Nothing is wrong with what was to be stored: it may
/// be tried again, and what was stored is not stored twice.
/// </summary>
public sealed class StoreUnreachableException : IOException
{
    /// <summary>Makes the error from a message fit to be shown and what caused it.</summary>
    public StoreUnreachableException(string message, Exception cause)
        : base(message, cause)
    {
    }
}
