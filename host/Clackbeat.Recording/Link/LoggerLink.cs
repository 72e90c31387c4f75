using System.Collections.Concurrent;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;
using Clackbeat.Site;

namespace Clackbeat.Recording.Link;

/// <summary>
/// A line to a logger. A thread of its own reads it, so that a slow consumer never costs bytes; the caller takes the
/// samples in batches.
/// </summary>
public sealed class LoggerLink : IDisposable
{
    private const int AnswersKept = 32;

    private readonly Stream _stream;
    private readonly string _name;
    private readonly BlockingCollection<IReadOnlyList<LoggerSample>> _batches = new(boundedCapacity: 256);

    // Bounded, and what nobody waits for is dropped from its old end: hellos and marks come for months.
    private readonly ConcurrentQueue<byte[]> _answers = new();
    private readonly SemaphoreSlim _answered = new(0);
    private readonly FrameWriter _writer = new();
    private readonly Thread _thread;
    private readonly CancellationTokenSource _stop = new();
    private Exception? _failure;

    private LoggerLink(Stream stream, string name)
    {
        _stream = stream;
        _name = name;
        Reader.OtherFrame = (kind, body) =>
        {
            if (kind is < 0x20 or Kinds.Hello or Kinds.BurstList or Kinds.BurstData or Kinds.TimeMark)
            {
                Keep(body);
            }
        };
        _thread = new Thread(ReadLine) { IsBackground = true, Name = "logger line" };
        _thread.Start();
    }

    /// <summary>Turns the bytes into samples; its account of losses grows with them.</summary>
    public FrameReader Reader { get; } = new();

    /// <summary>Opens a serial port.</summary>
    public static LoggerLink Open(string portName, int baud = 115_200)
    {
        try
        {
            return new LoggerLink(new SerialLine(portName, baud).Open(), portName);
        }
        catch (LineException refused)
        {
            throw new InputException(refused.What, refused);
        }
    }

    /// <summary>Uses a line that is open already; the link takes it over.</summary>
    public static LoggerLink Over(Stream stream) => new(stream, "the in-process line");

    /// <summary>Asks who is there; throws where nobody answers in time, or speaks another protocol.</summary>
    public Hello Identify(TimeSpan patience)
    {
        DateTime until = DateTime.UtcNow + patience;
        while (DateTime.UtcNow < until)
        {
            Forget();
            SendCommand(Kinds.Identify);
            if (Await(Kinds.Hello, TimeSpan.FromMilliseconds(500)) is not null && Reader.Hello is { } hello)
            {
                return hello;
            }
        }

        throw InputException.Of("line.no-logger", ("port", _name));
    }

    /// <summary>Starts sampling; throws where the logger refuses or does not answer.</summary>
    public void Start(StartCommand command)
    {
        Forget();
        command.Write(_writer);
        Send();
        DateTime until = DateTime.UtcNow + TimeSpan.FromSeconds(5);
        while (until - DateTime.UtcNow is { Ticks: > 0 } left && Await(Kinds.Answer, left) is { } body)
        {
            Answer answer = new();
            if (answer.TryRead(body, body.Length) && answer.Command == Kinds.Start)
            {
                RefuseUnlessDone(answer.Result, command);
                return;
            }
        }

        throw InputException.Of("line.no-start", ("port", _name));
    }

    /// <summary>Stops sampling; what was on its way still arrives.</summary>
    public void Stop() => SendCommand(Kinds.Stop);

    /// <summary>The next batch of samples; null when the time passed or the line has ended.</summary>
    public IReadOnlyList<LoggerSample>? Take(TimeSpan patience)
    {
        if (_batches.TryTake(out IReadOnlyList<LoggerSample>? batch, patience))
        {
            return batch;
        }

        return _failure is InputException ? throw _failure : null;
    }

    /// <summary>True when the line has ended: unplugged, cut, or closed.</summary>
    public bool HasEnded => _batches.IsCompleted;

    /// <inheritdoc/>
    public void Dispose()
    {
        _stop.Cancel();
        _stream.Dispose();
        _thread.Join(TimeSpan.FromSeconds(2));
    }

    private void SendCommand(byte kind)
    {
        _writer.Begin(kind);
        _writer.End();
        Send();
    }

    private void Send()
    {
        _stream.Write(_writer.Buffer, 0, _writer.Length);
        _stream.Flush();
    }

    private void RefuseUnlessDone(int result, StartCommand command)
    {
        if (result == Results.Done)
        {
            return;
        }

        throw new InputException(StartRefusal.Of(_name, result, command));
    }

    private void Keep(byte[] body)
    {
        _answers.Enqueue(body);
        while (_answers.Count > AnswersKept && _answers.TryDequeue(out _))
        {
        }

        // A waiter looks at all that is kept, so one signal is enough for many bodies.
        if (_answered.CurrentCount == 0)
        {
            _answered.Release();
        }
    }

    // What came before a command is no answer to it.
    private void Forget() => _answers.Clear();

    private byte[]? Await(byte kind, TimeSpan patience)
    {
        DateTime until = DateTime.UtcNow + patience;
        while (_failure is null && until - DateTime.UtcNow is { Ticks: > 0 } left)
        {
            while (_answers.TryDequeue(out byte[]? body))
            {
                if (body[0] == kind)
                {
                    return body;
                }
            }

            _answered.Wait(left);
        }

        return _failure is InputException ? throw _failure : null;
    }

    private void ReadLine()
    {
        byte[] buffer = new byte[8192];
        List<LoggerSample> batch = [];
        try
        {
            int count;
            while ((count = _stream.Read(buffer, 0, buffer.Length)) > 0)
            {
                Reader.Read(buffer.AsSpan(0, count), batch);
                if (batch.Count > 0)
                {
                    _batches.Add(batch, _stop.Token);
                    batch = [];
                }
            }
        }
        catch (Exception e) when (e is IOException or InputException or OperationCanceledException
            or ObjectDisposedException or InvalidOperationException or UnauthorizedAccessException)
        {
            _failure = e;
        }
        finally
        {
            _batches.CompleteAdding();
            _answered.Release();
        }
    }
}
