using Clackbeat.Logger.Board;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;

namespace Clackbeat.Logger.Reporting;

/// <summary>
/// Takes commands from the line and answers them (SPEC §5). The next command is looked at only when the last answer
/// has left, so one frame buffer is enough however fast a host asks.
/// </summary>
public sealed class CommandHandler
{
    private readonly ILoggerBoard _board;
    private readonly IBurstStorage? _storage;
    private readonly ILoggerControl _control;
    private readonly LoggerState _state;
    private readonly MessageFiller _filler;
    private readonly Reporter _reporter;
    private readonly FrameDecoder _decoder = new();
    private readonly FrameWriter _writer = new();
    private readonly byte[] _received = new byte[64];
    private readonly Answer _answer = new();
    private readonly StartCommand _start = new();
    private readonly SetCalendar _setCalendar = new();
    private readonly SetSchedule _setSchedule = new();
    private readonly ReadBurst _readBurst = new();
    private readonly BurstList _burstList = new();
    private readonly BurstData _burstData = new();
    private int _receivedLength;
    private int _receivedAt;

    /// <summary>Makes a handler for a board's line.</summary>
    public CommandHandler(
        ILoggerBoard board,
        IBurstStorage? storage,
        ILoggerControl control,
        LoggerState state,
        MessageFiller filler,
        Reporter reporter)
    {
        _board = board;
        _storage = storage;
        _control = control;
        _state = state;
        _filler = filler;
        _reporter = reporter;
    }

    /// <summary>True while an answer waits to be sent.</summary>
    public bool HasAnswer { get; private set; }

    /// <summary>Commands heard since the start.</summary>
    public int Heard { get; private set; }

    /// <summary>Device time of the last command [µs].</summary>
    public long LastHeardMicroseconds { get; private set; }

    /// <summary>Sends the waiting answer when the line can take it.</summary>
    public void SendAnswer(IFrameSink line, long now)
    {
        if (line.CanTake(now))
        {
            line.Take(_writer.Buffer, _writer.Length, now);
            HasAnswer = false;
        }
    }

    /// <summary>Takes received bytes up to the next whole command and carries it out; true when there was one.</summary>
    public bool Poll(long now)
    {
        if (_receivedAt == _receivedLength)
        {
            _receivedAt = 0;
            _receivedLength = _board.Receive(_received);
            if (_receivedLength == 0)
            {
                return false;
            }
        }

        while (_receivedAt < _receivedLength)
        {
            bool whole = _decoder.Push(_received[_receivedAt]);
            _receivedAt++;
            if (whole)
            {
                Heard++;
                _state.DiscardedPieces = _decoder.DiscardedPieces;
                LastHeardMicroseconds = now;
                CarryOut(_decoder.Body, _decoder.BodyLength, now);
                return true;
            }
        }

        _state.DiscardedPieces = _decoder.DiscardedPieces;
        return false;
    }

    private void CarryOut(byte[] body, int length, long now)
    {
        switch (body[0])
        {
            case Kinds.Identify:
                Reply(_filler.Identity);
                _reporter.Queue(Reporter.Hello);
                break;
            case Kinds.Version:
                Reply(_filler.Version);
                break;
            case Kinds.AskHealth:
                Reply(_filler.FillHealth(now));
                break;
            case Kinds.Start:
                _start.TryRead(body, length);
                Acknowledge(Kinds.Start, _control.Start(_start));
                break;
            case Kinds.Stop:
                _control.Stop();
                Acknowledge(Kinds.Stop, Results.Done);
                break;
            case Kinds.Restart:
                _control.Stop();
                Acknowledge(Kinds.Restart, Results.Done);
                _control.RequestRestart();
                break;
            case Kinds.SetCalendar:
                SetCalendar(body, length, now);
                break;
            case Kinds.SetSchedule:
                Acknowledge(Kinds.SetSchedule, _setSchedule.TryRead(body, length) ? _control.SetSchedule(_setSchedule) : Results.OutOfRange);
                break;
            case Kinds.ListBursts:
                ListBursts();
                break;
            case Kinds.ReadBurst:
                ReadBurst(body, length);
                break;
            case Kinds.AskBench:
                Measure();
                break;
            default:
                Acknowledge(body[0], Results.Unknown);
                break;
        }
    }

    private void Measure()
    {
        Bench? bench = _control.Measure();
        if (bench == null)
        {
            Acknowledge(Kinds.AskBench, Results.NotNow);
            return;
        }

        Reply(bench);
    }

    private void SetCalendar(byte[] body, int length, long now)
    {
        if (!_setCalendar.TryRead(body, length))
        {
            Acknowledge(Kinds.SetCalendar, Results.OutOfRange);
            return;
        }

        // A clock chip keeps it through sleep and loss of power.
        _state.Clock = _board.SetCalendar(_setCalendar.CalendarMilliseconds, _setCalendar.UncertaintyMilliseconds)
            ? ClockSources.Battery
            : ClockSources.Host;
        _state.CalendarOffsetMilliseconds = _setCalendar.CalendarMilliseconds - (now / 1000);
        _state.CalendarUncertaintyMilliseconds = _setCalendar.UncertaintyMilliseconds;
        Reply(_filler.FillTimeMark(now));
    }

    private void ListBursts()
    {
        if (_storage == null || !_storage.Open())
        {
            Acknowledge(Kinds.ListBursts, Results.NotNow);
            return;
        }

        _storage.Survey();
        _burstList.First = _storage.FirstBurst;
        _burstList.Last = _storage.LastBurst;
        _burstList.Count = _storage.BurstCount;
        Reply(_burstList);
    }

    private void ReadBurst(byte[] body, int length)
    {
        if (!_readBurst.TryRead(body, length))
        {
            Acknowledge(Kinds.ReadBurst, Results.OutOfRange);
            return;
        }

        uint total = _storage == null ? 0 : _storage.LengthOf(_readBurst.Burst);
        if (_storage == null || total == 0)
        {
            Acknowledge(Kinds.ReadBurst, Results.NotNow);
            return;
        }

        _burstData.Burst = _readBurst.Burst;
        _burstData.Offset = _readBurst.Offset;
        _burstData.Total = total;
        _burstData.DataLength =
            _storage.Read(_readBurst.Burst, _readBurst.Offset, _burstData.Data, BurstData.MaxData);
        Reply(_burstData);
    }

    private void Acknowledge(int command, int result)
    {
        _answer.Command = command;
        _answer.Result = result;
        Reply(_answer);
    }

    private void Reply(Message message)
    {
        message.Write(_writer);
        HasAnswer = true;
    }
}
