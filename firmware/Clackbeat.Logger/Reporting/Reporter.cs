using Clackbeat.Logger.Board;
using Clackbeat.Logger.Sampling;
using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;

namespace Clackbeat.Logger.Reporting;

/// <summary>
/// Tells hello, time mark, health and losses: in small parts between samples, or at once while no samples are taken.
/// </summary>
public sealed class Reporter
{
    /// <summary>Ask for a hello frame.</summary>
    public const int Hello = 1;

    /// <summary>Ask for a time mark.</summary>
    public const int TimeMark = 2;

    /// <summary>Ask for a health frame.</summary>
    public const int Health = 4;

    /// <summary>Ask for a loss record.</summary>
    public const int Loss = 8;

    /// <summary>Ask for what the board's bench found; nothing is told before it was measured.</summary>
    public const int Bench = 16;

    private readonly ILoggerBoard _board;
    private readonly MessageFiller _filler;
    private readonly LossBook _losses;
    private readonly FrameWriter _writer = new();
    private Message? _current;
    private int _queued;
    private int _part;
    private bool _isWritten;
    private bool _complete;

    /// <summary>Makes a reporter that takes its content from a filler.</summary>
    public Reporter(ILoggerBoard board, MessageFiller filler, LossBook losses)
    {
        _board = board;
        _filler = filler;
        _losses = losses;
    }

    /// <summary>True while something waits to be told.</summary>
    public bool IsBusy => _current != null || _queued != 0;

    /// <summary>Queues reports: a sum of the constants above.</summary>
    public void Queue(int reports) => _queued |= reports;

    /// <summary>One small part: fill, write some bytes, or hand over.</summary>
    public void Step(IFrameSink sink, long now)
    {
        if (_current == null)
        {
            Begin(now);
        }
        else if (!_complete)
        {
            // The end of a frame is a part of its own: with the last field it would be the longest.
            if (_isWritten)
            {
                _writer.End();
                _complete = true;
            }
            else
            {
                _isWritten = _current.WriteStep(_writer, _part);
                _part++;
            }
        }
        else if (sink.CanTake(now))
        {
            if (sink.Take(_writer.Buffer, _writer.Length, now) && _current == _losses.Record)
            {
                _losses.Clear();
            }

            _current = null;
        }
    }

    /// <summary>Tells all that is queued, waiting for the sink.</summary>
    public void TellAll(IFrameSink sink)
    {
        while (IsBusy)
        {
            Step(sink, _board.NowMicroseconds());
        }
    }

    private void Begin(long now)
    {
        _part = 0;
        _isWritten = false;
        _complete = false;
        if ((_queued & Hello) != 0)
        {
            _queued &= ~Hello;
            _current = _filler.FillHello();
        }
        else if ((_queued & TimeMark) != 0)
        {
            _queued &= ~TimeMark;
            _current = _filler.FillTimeMark(now);
        }
        else if ((_queued & Health) != 0)
        {
            _queued &= ~Health;
            _current = _filler.FillHealth(now);
        }
        else if ((_queued & Bench) != 0)
        {
            _queued &= ~Bench;
            _current = _filler.Bench;
        }
        else
        {
            _queued = 0;
            _current = _losses.HasRecord ? _losses.Record : null;
        }
    }
}
