using Clackbeat.Site.Facts;

namespace Clackbeat.Season.Store;

/// <summary>
/// The server of a season store doesn't answer, or can't take anything now. Nothing is wrong with what was to be stored: it may
/// be tried again, and what was stored is not stored twice.
/// </summary>
public sealed class StoreUnreachableException : IOException, ITelling
{
    /// <summary>Makes the error from what is to be told and what caused it.</summary>
    public StoreUnreachableException(Fact what, Exception cause)
        : base(null, cause) => What = what;

    /// <inheritdoc/>
    public Fact What { get; }

    /// <inheritdoc/>
    public override string Message => ExceptionText.Say(What);
}
