using Clackbeat.Site;

namespace Clackbeat.Recording.Files;

/// <summary>
/// Writes one session of a recording. Bytes gather for at most a second, then go to the disk as one block; what
/// <see cref="DurableBytes"/> counts survives a cut of power.
/// </summary>
public sealed class RecordingWriter : IDisposable
{
    private const int ChunkHead = 10;
    private const int FullBlock = 64 * 1024;

    // The format promises a second; a slow disk and a busy machine need their share of it.
    private static readonly TimeSpan FlushEvery = TimeSpan.FromSeconds(0.7);

    private readonly IRecordingStore _store;
    private readonly TimeProvider _time;
    private readonly PayloadWriter _frames = new();
    private readonly PayloadWriter _other = new();
    private readonly Guid _session = Guid.NewGuid();
    private readonly long _began;
    private long _lastFlush;
    private bool _unflushed;
    private uint _sequence;

    /// <summary>Makes a writer; the session's clock starts now.</summary>
    /// <param name="store">Where to; owned by the writer.</param>
    /// <param name="time">The host's clocks.</param>
    public RecordingWriter(IRecordingStore store, TimeProvider time)
    {
        _store = store;
        _time = time;
        _began = time.GetTimestamp();
        _lastFlush = _began;
    }

    /// <summary>Bytes of frames taken so far.</summary>
    public long TakenBytes { get; private set; }

    /// <summary>Bytes of frames that are on the disk itself.</summary>
    public long DurableBytes { get; private set; }

    /// <summary>Loss records written.</summary>
    public uint Losses { get; private set; }

    /// <summary>Host time since the session began [µs].</summary>
    public long ElapsedMicroseconds => ElapsedAt(_time.GetTimestamp());

    /// <summary>The same for a time stamp taken earlier [µs].</summary>
    public long ElapsedAt(long timestamp) => (long)_time.GetElapsedTime(_began, timestamp).TotalMicroseconds;

    /// <summary>Opens the session and flushes.</summary>
    public void Begin(SessionHeader header, IEnumerable<RecordingDocument> documents)
    {
        header.Write(_other);
        Write(BlockKind.Session, _other);
        foreach (RecordingDocument document in documents)
        {
            document.Write(_other);
            Write(BlockKind.Document, _other);
        }

        Flush();
    }

    /// <summary>Takes bytes as they came.</summary>
    /// <param name="bytes">The bytes; at most 65535.</param>
    /// <param name="elapsedMicroseconds">When they arrived [µs since the session began]; −1 where that is unknown.</param>
    public void AddBytes(ReadOnlySpan<byte> bytes, long elapsedMicroseconds)
    {
        if (_frames.Length + ChunkHead + bytes.Length > FullBlock)
        {
            WriteFrames();
        }

        _frames.I64(elapsedMicroseconds);
        _frames.U16(bytes.Length);
        _frames.Bytes(bytes);
        TakenBytes += bytes.Length;
    }

    /// <summary>Says what is missing; its place in the file is behind the bytes taken so far.</summary>
    public void AddLoss(LossRecord loss)
    {
        WriteFrames();
        loss.Write(_other);
        Write(BlockKind.Loss, _other);
        Losses++;
    }

    /// <summary>Takes a text along; its place in the file is behind the bytes taken so far.</summary>
    public void Add(RecordingDocument document)
    {
        WriteFrames();
        document.Write(_other);
        Write(BlockKind.Document, _other);
    }

    /// <summary>Flushes when that is due.</summary>
    public void FlushIfDue()
    {
        if ((_unflushed || _frames.Length > 0) && _time.GetElapsedTime(_lastFlush) >= FlushEvery)
        {
            Flush();
        }
    }

    /// <summary>Returns when all that was taken is on the disk itself.</summary>
    public void Flush()
    {
        WriteFrames();
        Guarded([]);
        _unflushed = false;
        _lastFlush = _time.GetTimestamp();
        DurableBytes = TakenBytes;
    }

    /// <summary>Closes the session and flushes.</summary>
    public void End(EndReason reason, long samples)
    {
        WriteFrames();
        new SessionEnd(reason, samples, Losses).Write(_other);
        Write(BlockKind.End, _other);
        Flush();
    }

    /// <summary>Closes the file as it stands; an end is not written.</summary>
    public void Dispose() => _store.Dispose();

    private void WriteFrames()
    {
        if (_frames.Length > 0)
        {
            Write(BlockKind.Frames, _frames);
        }
    }

    private void Write(BlockKind kind, PayloadWriter payload)
    {
        if (payload.Length > BlockFormat.MaxPayload)
        {
            throw InputException.Of("recording.long-text", ("bytes", payload.Length), ("most", BlockFormat.MaxPayload));
        }

        long utc = (_time.GetUtcNow() - DateTimeOffset.UnixEpoch).Ticks / TimeSpan.TicksPerMicrosecond;
        ReadOnlySpan<byte> block = payload.Seal(new BlockHead(kind, _session, _sequence, utc, ElapsedMicroseconds));
        _unflushed = true;
        Guarded(block);
        _sequence++;
        payload.Clear();
    }

    // An empty block stands for a flush.
    private void Guarded(ReadOnlySpan<byte> block)
    {
        try
        {
            if (block.IsEmpty)
            {
                _store.Flush();
            }
            else
            {
                _store.Append(block);
            }
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new DiskException(fault.Message, fault);
        }
    }
}

/// <summary>The disk did not take a recording's bytes; what was acknowledged before is safe.</summary>
public sealed class DiskException : IOException
{
    /// <summary>Makes the error from what the system said.</summary>
    public DiskException(string message, Exception inner)
        : base(message, inner)
    {
    }
}
