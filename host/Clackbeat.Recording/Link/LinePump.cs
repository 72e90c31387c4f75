using System.Collections.Concurrent;

namespace Clackbeat.Recording.Link;

/// <summary>Bytes of one read of a line.</summary>
/// <param name="Bytes">The bytes.</param>
/// <param name="Timestamp">When they arrived, as the time provider counts.</param>
public readonly record struct LineChunk(byte[] Bytes, long Timestamp);

/// <summary>
/// Reads a line on a thread of its own, so that nothing the rest of the program does costs bytes. The first fault of a
/// read ends it: a serial port that failed once never comes back by itself.
/// </summary>
public sealed class LinePump : IDisposable
{
    // A slow disk may hold the rest up for a good ten minutes at 115200 bit/s before a byte is lost.
    private const int MaxWaitingBytes = 8 << 20;

    // The system's own buffer of a serial port holds 4096 bytes: where much comes at once, the rest is short.
    private const int MuchBytes = 1024;

    private static readonly TimeSpan ShortRest = TimeSpan.FromMilliseconds(3);

    private readonly Stream _line;
    private readonly TimeProvider _time;
    private readonly TimeSpan _rest;
    private readonly BlockingCollection<LineChunk> _chunks = [];
    private readonly Thread _thread;
    private long _waitingBytes;
    private long _droppedBytes;
    private volatile bool _stopped;

    /// <summary>Starts reading.</summary>
    /// <param name="line">The line; owned by the pump.</param>
    /// <param name="time">The host's clocks.</param>
    /// <param name="rest">How long small pieces may gather, see <see cref="ILineOpener.Rest"/>.</param>
    public LinePump(Stream line, TimeProvider time, TimeSpan rest)
    {
        (_line, _time, _rest) = (line, time, rest);
        _thread = new Thread(Pump) { IsBackground = true, Name = "logger line" };
        _thread.Start();
    }

    /// <summary>True when the line has ended and all its bytes were taken.</summary>
    public bool HasEnded => _chunks.IsCompleted;

    /// <summary>Bytes that had to be thrown away because nobody took them for too long.</summary>
    public long DroppedBytes => Interlocked.Read(ref _droppedBytes);

    /// <summary>The next bytes; false when none came in time or the line has ended.</summary>
    public bool TryTake(out LineChunk chunk, TimeSpan patience, CancellationToken stop)
    {
        try
        {
            if (_chunks.TryTake(out chunk, (int)patience.TotalMilliseconds, stop))
            {
                Interlocked.Add(ref _waitingBytes, -chunk.Bytes.Length);
                return true;
            }
        }
        catch (OperationCanceledException)
        {
            chunk = default;
        }

        return false;
    }

    /// <summary>Sends bytes; false when the line is gone.</summary>
    public bool TrySend(byte[] bytes, int count)
    {
        try
        {
            _line.Write(bytes, 0, count);
            _line.Flush();
            return true;
        }
        catch (Exception e) when (IsLineFault(e))
        {
            return false;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _stopped = true;
        _line.Dispose();
        _thread.Join(TimeSpan.FromSeconds(2));
    }

    private static bool IsLineFault(Exception e) => e is IOException or ObjectDisposedException
        or InvalidOperationException or UnauthorizedAccessException or OperationCanceledException or TimeoutException;

    private void Pump()
    {
        byte[] buffer = new byte[8192];
        try
        {
            int count;
            while (!_stopped && (count = _line.Read(buffer, 0, buffer.Length)) > 0)
            {
                Hand(buffer.AsSpan(0, count));
                Thread.Sleep(count < MuchBytes || _rest < ShortRest ? _rest : ShortRest);
            }
        }
        catch (Exception e) when (IsLineFault(e))
        {
            // The link is gone; the end of the chunks says so.
        }
        finally
        {
            _chunks.CompleteAdding();
        }
    }

    private void Hand(ReadOnlySpan<byte> bytes)
    {
        if (Interlocked.Add(ref _waitingBytes, bytes.Length) > MaxWaitingBytes)
        {
            Interlocked.Add(ref _waitingBytes, -bytes.Length);
            Interlocked.Add(ref _droppedBytes, bytes.Length);
            return;
        }

        _chunks.Add(new LineChunk(bytes.ToArray(), _time.GetTimestamp()));
    }
}
