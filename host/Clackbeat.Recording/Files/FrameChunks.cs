namespace Clackbeat.Recording.Files;

/// <summary>The chunks of a frames block (recording-format §5), walked through once.</summary>
internal ref struct FrameChunks(ReadOnlySpan<byte> payload)
{
    private PayloadReader _payload = new(payload);

    /// <summary>When the current chunk arrived [µs since the session began]; −1 unknown.</summary>
    public long Arrived { get; private set; }

    /// <summary>The current chunk.</summary>
    public ReadOnlySpan<byte> Bytes { get; private set; }

    /// <summary>Goes to the next chunk; false at the end, or where the block does not hold what it says.</summary>
    public bool Next()
    {
        if (_payload.Rest.Length == 0)
        {
            return false;
        }

        Arrived = _payload.I64();
        Bytes = _payload.Bytes(_payload.U16());
        return _payload.Ok;
    }

    /// <summary>True when the chunks fill a payload to its end, which those of a spoilt one may not.</summary>
    public static bool Fill(ReadOnlySpan<byte> payload)
    {
        FrameChunks chunks = new(payload);
        while (chunks.Next())
        {
        }

        return chunks._payload.Ok;
    }

    /// <summary>Copies all bytes of a frames block, without the chunks' heads.</summary>
    public static void CopyTo(ReadOnlySpan<byte> payload, Stream target)
    {
        FrameChunks chunks = new(payload);
        while (chunks.Next())
        {
            target.Write(chunks.Bytes);
        }
    }
}
