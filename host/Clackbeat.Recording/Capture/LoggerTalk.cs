using Clackbeat.Protocol;
using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Link;
using Clackbeat.Site;
using Clackbeat.Site.Facts;

namespace Clackbeat.Recording.Capture;

/// <summary>An open line to what may be a logger: sends commands, and finds answers among what comes in.</summary>
public sealed class LoggerTalk : IDisposable
{
    private static readonly TimeSpan AskEvery = TimeSpan.FromMilliseconds(400);
    private static readonly TimeSpan PollInterval = TimeSpan.FromMilliseconds(100);

    private readonly LinePump _pump;
    private readonly FrameWriter _writer = new();
    private readonly FrameReader _reader = new();
    private readonly List<LoggerSample> _ignored = [];
    private readonly TimeProvider _time;
    private Func<byte[], bool>? _wanted;
    private byte[]? _found;

    private LoggerTalk(ILineOpener opener, TimeProvider time)
    {
        Name = opener.Name;
        _time = time;
        _pump = new LinePump(opener.Open(), time, opener.Rest);
        _reader.OtherFrame = (_, body) =>
        {
            if (_found is null && _wanted?.Invoke(body) == true)
            {
                _found = body;
            }
        };
    }

    /// <summary>What the user calls the line.</summary>
    public string Name { get; }

    /// <summary>True when the line has ended and all its bytes were taken.</summary>
    public bool HasEnded => _pump.HasEnded;

    /// <summary>Bytes that came so far.</summary>
    public long BytesIn { get; private set; }

    /// <summary>Bytes this computer had to throw away.</summary>
    public long DroppedBytes => _pump.DroppedBytes;

    /// <summary>
    /// Until when all that came has been taken, as the time provider counts. Where a slow disk holds this computer up it lies
    /// back, and what still waits is no silence of the logger.
    /// </summary>
    public long TakenUntil { get; private set; }

    /// <summary>Good frames so far.</summary>
    public int GoodFrames => _reader.GoodFrames;

    /// <summary>The last hello on this line; null before the first.</summary>
    public Hello? Hello => _reader.Hello;

    /// <summary>Hellos so far on this line.</summary>
    public int Hellos => _reader.Hellos;

    /// <summary>Given each chunk as it came, before it is read here.</summary>
    public Action<LineChunk>? Tap { get; set; }

    /// <summary>Opens a line.</summary>
    /// <exception cref="LineException">It can't be opened.</exception>
    public static LoggerTalk Open(ILineOpener opener, TimeProvider time) => new(opener, time);

    /// <summary>Sends a command without fields; false when the line is gone.</summary>
    public bool TrySend(byte kind)
    {
        _writer.Begin(kind);
        _writer.End();
        return _pump.TrySend(_writer.Buffer, _writer.Length);
    }

    /// <summary>Sends a command; false when the line is gone.</summary>
    public bool TrySend(Message command)
    {
        command.Write(_writer);
        return _pump.TrySend(_writer.Buffer, _writer.Length);
    }

    /// <summary>Takes what comes next; false when nothing came in time, the line has ended, or a stop was asked.</summary>
    /// <exception cref="InputException">The logger speaks another protocol.</exception>
    public bool Step(TimeSpan patience, CancellationToken stop)
    {
        long looked = _time.GetTimestamp();
        if (!_pump.TryTake(out LineChunk chunk, patience, stop))
        {
            TakenUntil = stop.IsCancellationRequested ? TakenUntil : looked;
            return false;
        }

        TakenUntil = chunk.Timestamp;
        BytesIn += chunk.Bytes.Length;
        Tap?.Invoke(chunk);
        _reader.Read(chunk.Bytes, _ignored);
        _ignored.Clear();
        return true;
    }

    /// <summary>Takes what came until now and still waits.</summary>
    /// <exception cref="InputException">The logger speaks another protocol.</exception>
    public void TakeWaiting()
    {
        long now = _time.GetTimestamp();
        while (TakenUntil < now && Step(TimeSpan.Zero, CancellationToken.None))
        {
        }
    }

    /// <summary>Asks who is there; null when nobody answered in time, the line ended, or a stop was asked.</summary>
    /// <exception cref="InputException">The logger speaks another protocol; both versions and the remedy are named.</exception>
    public Hello? Identify(TimeSpan patience, CancellationToken stop)
    {
        byte[]? hello = Ask(() => TrySend(Kinds.Identify), body => body[0] == Kinds.Hello, patience, stop);
        return hello is null ? null : _reader.Hello;
    }

    /// <summary>Sends a command until it is answered; null when that did not come in time or the line ended.</summary>
    /// <param name="send">Sends the command.</param>
    /// <param name="isAnswer">Knows the answer by its body.</param>
    /// <param name="patience">How long in all.</param>
    /// <param name="stop">Ends the wait.</param>
    /// <param name="again">When to send it again; a command that interrupts the logger waits longer.</param>
    public byte[]? Ask(
        Func<bool> send, Func<byte[], bool> isAnswer, TimeSpan patience, CancellationToken stop, TimeSpan? again = null)
    {
        TimeSpan askEvery = again ?? AskEvery;
        long began = _time.GetTimestamp();
        _found = null;
        _wanted = isAnswer;
        while (!stop.IsCancellationRequested && !HasEnded && _time.GetElapsedTime(began) < patience)
        {
            if (!send())
            {
                break;
            }

            long asked = _time.GetTimestamp();
            while (_found is null && !HasEnded && !stop.IsCancellationRequested && _time.GetElapsedTime(asked) < askEvery)
            {
                Step(PollInterval, stop);
            }

            if (_found is not null)
            {
                break;
            }
        }

        _wanted = null;
        return _found;
    }

    /// <summary>True for the body of a hello that tells such a mode.</summary>
    public static bool IsHello(byte[] body, int mode)
    {
        Hello hello = new();
        return body[0] == Kinds.Hello && hello.TryRead(body, body.Length) && hello.Mode == mode;
    }

    /// <summary>Says in words why nobody could be identified.</summary>
    public LineException Nobody() => BytesIn > 0 && GoodFrames == 0
        ? new LineException(
            LineFault.Failed,
            Fact.Of("line.stranger", ("port", Name), ("bytes", BytesIn)),
            null)
        : new LineException(
            LineFault.Failed,
            Fact.Of("line.no-logger", ("port", Name)),
            null);

    /// <inheritdoc/>
    public void Dispose() => _pump.Dispose();
}
