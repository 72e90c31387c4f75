using Clackbeat.Logger.Alone;
using Clackbeat.Logger.Board;
using Clackbeat.Logger.Sampling;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;

namespace Clackbeat.Logger.Measuring;

/// <summary>
/// Measures what this board can do (SPEC §5, command 33): conversion, clock, turns and jitter at the period that is set,
/// the transmitter, the card, memory. All of it runs the code that records, with the chores that a stream has.
/// </summary>
public sealed class LoggerBench
{
    private const int Readings = 512;
    private const long LengthMicroseconds = 3_000_000;
    private const int Sends = 8;
    private const long DrainMicroseconds = 20_000;

    private readonly ILoggerBoard _board;
    private readonly IBurstStorage? _storage;
    private readonly LoggerSettings _settings;
    private readonly LoggerState _state = new();
    private readonly BenchBoard _measured;
    private readonly EmptyLine _line;
    private readonly Sampler _sampler;
    private readonly byte[] _zeros = new byte[FrameLimits.MaxFrame];

    /// <summary>Makes the bench of a logger.</summary>
    /// <param name="board">The board.</param>
    /// <param name="storage">Its card; null where none is fitted.</param>
    /// <param name="settings">How it works.</param>
    /// <param name="chores">What runs between its samples.</param>
    public LoggerBench(ILoggerBoard board, IBurstStorage? storage, LoggerSettings settings, IChores chores)
    {
        _board = board;
        _storage = storage;
        _settings = settings;
        _measured = new BenchBoard(board);
        _line = new EmptyLine(board, settings.Baud, FrameLimits.MaxFrame);
        _sampler = new Sampler(_measured, _state, new LossBook(_state), chores, _line, settings.IsWide);
        _measured.Sampler = _sampler;
    }

    /// <summary>What was measured last.</summary>
    public Bench Result { get; } = new();

    /// <summary>Where the chores report to while it runs.</summary>
    public IFrameSink Line => _line;

    /// <summary>Measures; takes some four seconds. Nothing may be sampling.</summary>
    public void Run()
    {
        Result.TimeMicroseconds = _board.NowMicroseconds();
        Result.PeriodMicroseconds = (uint)_settings.PeriodMicroseconds;
        TimeCalls();
        TimeTurns();
        TimeCard();
        _board.CountMemory();
        Result.FreeMemoryBytes = _board.FreeMemoryBytes;
    }

    /// <summary>Keeps the result on the card, so that a lone logger's files carry it after every sleep.</summary>
    public void Save()
    {
        if (_storage != null && _storage.Open())
        {
            new StateFrame(_storage).Write(BurstNames.BenchSlot, Result);
        }
    }

    /// <summary>Takes the result that a card keeps; false without one.</summary>
    public bool TryLoad() => _storage != null && _storage.Open() && new StateFrame(_storage).TryRead(BurstNames.BenchSlot, Result);

    private void TimeCalls()
    {
        long began = _board.NowMicroseconds();
        for (int i = 0; i < Readings; i++)
        {
            _board.ReadConverter(Channels.Pressure);
        }

        long converted = _board.NowMicroseconds();
        for (int i = 0; i < Readings; i++)
        {
            _board.NowMicroseconds();
        }

        long read = _board.NowMicroseconds();
        Result.ConversionNanoseconds = (uint)((converted - began) * 1000 / Readings);
        Result.ClockNanoseconds = (uint)((read - converted) * 1000 / Readings);
        long sending = 0;
        for (int i = 0; i < Sends; i++)
        {
            long drained = _board.NowMicroseconds() + DrainMicroseconds;
            while (_board.NowMicroseconds() < drained)
            {
            }

            long before = _board.NowMicroseconds();
            _board.Send(_zeros, _zeros.Length);
            sending += _board.NowMicroseconds() - before;
        }

        Result.SendMicroseconds = (uint)(sending / Sends);
    }

    private void TimeTurns()
    {
        _state.Samples = 0;
        _state.LostSamples = 0;
        _measured.Reset();
        _sampler.Start(_line, _settings.PeriodMicroseconds, _settings.SupplyEvery, _settings.DeliveryEvery);
        _sampler.Run(_sampler.DueMicroseconds + LengthMicroseconds);
        _sampler.Stop();
        long turns = _measured.Turns > 0 ? _measured.Turns : 1;
        long mean = _measured.Deviations / turns;
        long variance = (_measured.DeviationsSquared / turns) - (mean * mean);
        Result.TurnMicroseconds = (uint)(_measured.TurnsMicroseconds / turns);
        Result.WorstTurnMicroseconds = (uint)_measured.WorstTurnMicroseconds;
        Result.Samples = _state.Samples;
        Result.Lost = _state.LostSamples;
        Result.JitterNanoseconds = (uint)RootOf(variance * 1_000_000);
    }

    private void TimeCard()
    {
        bool timed = _storage != null && _storage.Open() && _storage.Time(_board);
        Result.BlockMicroseconds = timed ? _storage!.BlockMicroseconds : ProtocolVersion.Unknown32;
        Result.WorstBlockMicroseconds = timed ? _storage!.WorstBlockMicroseconds : ProtocolVersion.Unknown32;
    }

    // Newton's root of whole numbers: the runtime's own lies in a package of its own.
    private static long RootOf(long value)
    {
        if (value <= 0)
        {
            return 0;
        }

        long root = value;
        long next = (root / 2) + 1;
        while (next < root)
        {
            root = next;
            next = (root + (value / root)) / 2;
        }

        return root;
    }
}
