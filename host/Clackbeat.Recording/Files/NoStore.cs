namespace Clackbeat.Recording.Files;

/// <summary>Where the bytes of a line go that is only watched.</summary>
internal sealed class NoStore : IRecordingStore
{
    private NoStore()
    {
    }

    /// <summary>The one there is; it keeps nothing, so it may be shared.</summary>
    public static NoStore Instance { get; } = new();

    public void Append(ReadOnlySpan<byte> bytes)
    {
    }

    public void Flush()
    {
    }

    public void Dispose()
    {
    }
}
