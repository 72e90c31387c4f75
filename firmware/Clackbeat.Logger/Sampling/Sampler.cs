using Clackbeat.Logger.Board;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Samples;

namespace Clackbeat.Logger.Sampling;

/// <summary>
/// Takes samples on a grid (SPEC §6), spinning on the device's clock, and builds the frames meanwhile. Each turn is one
/// grid point: its sample, and one small part of closing, sending or other chores, so that no sample waits for a frame.
/// Two frames take turns: one fills while the other is closed, sent and opened anew. Nothing is allocated.
/// </summary>
public sealed class Sampler
{
    // A countdown that comes to its end after weeks; it then reads nothing and starts again.
    private const int Never = int.MaxValue;

    // Chores that have nothing to do are asked again after so many points.
    private const int ChoresEvery = 16;

    // Chores that must wait for a frame to be closed are asked again after so many points: asking costs a turn more than
    // closing does.
    private const int ChoresWait = 4;

    private readonly ILoggerBoard _board;
    private readonly LoggerState _state;
    private readonly LossBook _losses;
    private readonly IChores _chores;
    private IFrameSink _sink;
    private readonly bool _isWide;
    private SampleFrameWriter _filling;
    private SampleFrameWriter _closing;
    private int _phase;
    private int _sentFrames;
    private long _period;
    private int _supplyEvery;
    private int _deliveryEvery;
    private int _supplyLeft;
    private int _deliveryLeft;
    private int _choresLeft;
    private int _stride;
    private int _untilEvent;
    private bool _isRunning;

    // Running, and the filling frame has room.
    private bool _isTaking;
    private long _due;
    private long _base;
    private long _closingBase;
    private int _skipped;
    private int _waitingPoints;
    private long _excusedPoint;
    private int _excuse;

    /// <summary>Makes a sampler for a board; the chores run between its samples.</summary>
    /// <param name="board">The board.</param>
    /// <param name="state">What it counts in.</param>
    /// <param name="losses">What it accounts for losses in.</param>
    /// <param name="chores">What runs between its samples.</param>
    /// <param name="sink">Where the frames go until <see cref="Start"/> says otherwise.</param>
    /// <param name="isWide">True for a converter of more than 12 bits (SPEC §11).</param>
    public Sampler(ILoggerBoard board, LoggerState state, LossBook losses, IChores chores, IFrameSink sink, bool isWide)
    {
        _isWide = isWide;
        _filling = new SampleFrameWriter(isWide);
        _closing = new SampleFrameWriter(isWide);
        _board = board;
        _state = state;
        _losses = losses;
        _chores = chores;
        _sink = sink;
    }

    /// <summary>True between <see cref="Start"/> and <see cref="Stop"/>.</summary>
    public bool IsRunning => _isRunning;

    /// <summary>The next grid point [µs].</summary>
    public long DueMicroseconds => _due;

    /// <summary>Begins a new grid, one period from now.</summary>
    /// <param name="sink">Where the frames go.</param>
    /// <param name="periodMicroseconds">The grid's period [µs].</param>
    /// <param name="supplyEvery">Samples to one reading of the sensor's supply; 0 none.</param>
    /// <param name="deliveryEvery">Samples to one reading of the delivery pressure; 0 none.</param>
    public void Start(IFrameSink sink, int periodMicroseconds, int supplyEvery, int deliveryEvery)
    {
        _sink = sink;
        _period = periodMicroseconds;
        _supplyEvery = supplyEvery > 0 ? supplyEvery : Never;
        _deliveryEvery = deliveryEvery > 0 ? deliveryEvery : Never;
        _supplyLeft = supplyEvery > 0 ? 1 : Never;
        _deliveryLeft = deliveryEvery > 0 ? 1 : Never;
        _choresLeft = 1;
        _stride = 1;
        _untilEvent = 1;
        _filling.Open(_sentFrames);
        _closing.Open(_sentFrames + 1);
        _phase = Phases.Free;
        _waitingPoints = 0;
        _skipped = 0;
        _due = _board.NowMicroseconds() + periodMicroseconds;
        _base = _due;
        _isRunning = true;
        _isTaking = true;
    }

    /// <summary>Says that the next grid point, should it come late, is late for a known reason.</summary>
    public void Excuse(int reason)
    {
        _excuse = reason;
        _excusedPoint = _due;
    }

    /// <summary>
    /// Takes the grid points up to a time, or until <see cref="Stop"/>. The path of nearly every sample is written out
    /// here: on the microcontroller's interpreter a call costs as much as a dozen instructions.
    /// </summary>
    /// <param name="untilMicroseconds">The first point that is left for the next call is at or behind this [µs].</param>
    public void Run(long untilMicroseconds)
    {
        int untilEvent = _untilEvent;
        while (_due < untilMicroseconds)
        {
            long due = _due;
            long now;
            do
            {
                now = _board.NowMicroseconds();
            }
            while (now < due);

            if (!_isTaking)
            {
                if (!_isRunning)
                {
                    break;
                }

                WaitForFrame(now);
                continue;
            }

            long late = now - due;
            bool full;
            if (late < EntryTags.NearSpan)
            {
                int counts = _board.ReadConverter(Channels.Pressure);
                full = counts < 0 ? Skip(1, LossReasons.Converter)
                    : _isWide ? _filling.AddWideSample(counts, (int)late)
                    : _filling.AddSample(counts, (int)late);
                _due = due + _period;
            }
            else if (late < _period)
            {
                full = TakeLate();
            }
            else
            {
                SkipPassed(late);
                continue;
            }

            if (--untilEvent <= 0 && !full)
            {
                // A reading or a chore is the small part of this turn. Where the frame is full they wait for the next.
                TakeEvents(now, _stride - untilEvent);
                untilEvent = _stride;
                continue;
            }

            if (full)
            {
                Rotate();
            }
            else if (_phase != Phases.Free)
            {
                Close(now);
            }
        }

        _untilEvent = untilEvent;
    }

    /// <summary>Ends the grid: closes and sends what there is, waiting for the sink.</summary>
    public void Stop()
    {
        if (!_isRunning)
        {
            return;
        }

        _isRunning = false;
        _isTaking = false;
        if (_waitingPoints > 0)
        {
            // Points that waited for the other frame belong to none.
            _due -= _waitingPoints * _period;
            _losses.CountSkipped(_waitingPoints);
            _waitingPoints = 0;
        }

        while (_phase != Phases.Free)
        {
            Close(_board.NowMicroseconds());
        }

        if (!_filling.IsEmpty)
        {
            Swap();
            while (_phase != Phases.Free)
            {
                Close(_board.NowMicroseconds());
            }
        }
    }

    // Whole points have passed. All of them are skipped at once, nothing is converted and nothing else done: a turn that
    // skips and converts takes longer than a period on a slow board, and would make the next one late as well.
    private void SkipPassed(long late)
    {
        int points = 1 + (int)(late / _period);
        int reason = _excusedPoint == _due ? _excuse : LossReasons.Overrun;
        _state.Overruns++;
        _due += points * _period;
        if (Skip(points, reason))
        {
            Rotate();
        }
    }

    // The point came late by more than an ordinary sample can say.
    private bool TakeLate()
    {
        // The clock again: what passed since it was read belongs to the sample's time.
        long late = _board.NowMicroseconds() - _due;
        int counts = _board.ReadConverter(Channels.Pressure);
        _due += _period;
        if (counts < 0)
        {
            return Skip(1, LossReasons.Converter);
        }

        if (!_isWide && late < EntryTags.NearSpan)
        {
            return _filling.AddSample(counts, (int)late);
        }

        if (_isWide && late < EntryTags.WideNearSpan)
        {
            return _filling.AddWideSample(counts, (int)late);
        }

        _filling.AddLate(counts, (int)late);
        return _filling.IsFull;
    }

    private bool Skip(int points, int reason)
    {
        int left = points;
        while (left > EntryTags.MaxSkip && !_filling.IsFull)
        {
            _filling.AddSkip(EntryTags.MaxSkip, reason);
            left -= EntryTags.MaxSkip;
        }

        _filling.AddSkip(left, reason);
        _skipped += points;
        _losses.CountSkipped(points);
        return _filling.IsFull;
    }

    // Readings of other channels and chores come every so many points: one countdown to the nearest of them costs
    // the ordinary sample less than three. A point does one of them, and what must give way comes at the next point:
    // two of them in one turn are more than a period on a slow board.
    private void TakeEvents(long now, int passed)
    {
        _supplyLeft -= passed;
        _deliveryLeft -= passed;
        _choresLeft -= passed;
        if (_deliveryLeft <= 0)
        {
            _deliveryLeft += _deliveryEvery;
            TakeReading(Channels.Delivery, _deliveryEvery);
        }
        else if (_supplyLeft <= 0)
        {
            _supplyLeft += _supplyEvery;
            _state.SupplyCounts = TakeReading(Channels.Supply, _supplyEvery);
        }
        else if (_choresLeft <= 0)
        {
            _choresLeft = Chore(now);
        }

        int stride = _supplyLeft < _deliveryLeft ? _supplyLeft : _deliveryLeft;
        stride = _choresLeft < stride ? _choresLeft : stride;
        _stride = stride > 0 ? stride : 1;
    }

    // Points until chores are asked again.
    private int Chore(long now)
    {
        if (_phase != Phases.Free)
        {
            Close(now);
            return ChoresWait;
        }

        return _chores.Step(now) ? 1 : ChoresEvery;
    }

    // A frame that this fills is noticed at the next sample: it has room for the entries of a whole point behind its limit.
    private int TakeReading(int channel, int every)
    {
        int counts = every == Never ? -1 : _board.ReadConverter(channel);
        if (counts < 0)
        {
            return ProtocolVersion.NotGiven16;
        }

        _filling.AddReading(channel, counts);
        return counts;
    }

    private void Rotate()
    {
        if (_phase != Phases.Free)
        {
            // The other frame has not left yet: points pass without a sample until it has.
            _waitingPoints = 1;
            _isTaking = false;
            _due += _period;
            return;
        }

        Swap();
    }

    private void Swap()
    {
        SampleFrameWriter full = _filling;
        _filling = _closing;
        _closing = full;
        _closing.BeginClose(_base, (int)_period);
        _closingBase = _base;
        _losses.FramePoints = (int)((_due - _base) / _period);
        _losses.FrameSkipped = _skipped;
        _base = _due;
        _skipped = 0;
        _phase = Phases.Closing;
    }

    private void WaitForFrame(long now)
    {
        if (_phase != Phases.Free)
        {
            Close(now);
        }

        if (_phase != Phases.Free)
        {
            int passed = 1 + (int)((now - _due) / _period);
            _waitingPoints += passed;
            _due += passed * _period;
            return;
        }

        int points = _waitingPoints;
        _waitingPoints = 0;
        _isTaking = true;
        _due -= points * _period;
        Swap();
        _due += points * _period;
        _state.Overruns++;
        Skip(points, _sink.LossReason);
    }

    private void Close(long now)
    {
        if (_phase == Phases.Closing)
        {
            if (_closing.CloseStep())
            {
                _phase = Phases.Closed;
            }
        }
        else if (_phase == Phases.Closed)
        {
            if (_sink.CanTake(now))
            {
                Excuse(_sink.LossReason);
                _losses.CountFrame(
                    _sink.Take(_closing.Buffer, _closing.Length, now), _sink.LossReason, _closingBase, (int)_period);
                _sentFrames++;
                _phase = Phases.Sent;
            }
        }
        else
        {
            _closing.Open(_sentFrames + 1);
            _phase = Phases.Free;
        }
    }

    // Where the frame that is not filling stands.
    private static class Phases
    {
        public const int Free = 0;
        public const int Closing = 1;
        public const int Closed = 2;
        public const int Sent = 3;
    }
}
