using Clackbeat.Logger.Board;
using Clackbeat.Logger.Sampling;
using Clackbeat.Protocol;

namespace Clackbeat.Logger.Measuring;

/// <summary>
/// Stands between the sampler and the board and takes the time of every turn: from the clock reading that a sample is
/// taken by to the first one after its work. Its own calls make a turn a little longer than it is without it.
/// </summary>
public sealed class BenchBoard : ILoggerBoard
{
    private readonly ILoggerBoard _board;
    private long _last;
    private long _began;
    private bool _inTurn;

    /// <summary>Makes it over the board that is measured.</summary>
    public BenchBoard(ILoggerBoard board)
    {
        _board = board;
    }

    /// <summary>The sampler that is measured: it knows which point is due.</summary>
    public Sampler? Sampler { get; set; }

    /// <summary>Turns measured.</summary>
    public long Turns { get; private set; }

    /// <summary>Time of all of them [µs].</summary>
    public long TurnsMicroseconds { get; private set; }

    /// <summary>Longest of them [µs].</summary>
    public long WorstTurnMicroseconds { get; private set; }

    /// <summary>Sum of the samples' deviations from the grid [µs].</summary>
    public long Deviations { get; private set; }

    /// <summary>Sum of their squares [µs²].</summary>
    public long DeviationsSquared { get; private set; }

    /// <inheritdoc/>
    public int WakeCause => _board.WakeCause;

    /// <inheritdoc/>
    public uint FreeMemoryBytes => _board.FreeMemoryBytes;

    /// <summary>Forgets what was measured.</summary>
    public void Reset()
    {
        Turns = 0;
        TurnsMicroseconds = 0;
        WorstTurnMicroseconds = 0;
        Deviations = 0;
        DeviationsSquared = 0;
        _inTurn = false;
    }

    /// <inheritdoc/>
    public long NowMicroseconds()
    {
        long now = _board.NowMicroseconds();
        if (_inTurn)
        {
            _inTurn = false;
            long turn = now - _began;
            Turns++;
            TurnsMicroseconds += turn;
            if (turn > WorstTurnMicroseconds)
            {
                WorstTurnMicroseconds = turn;
            }
        }

        _last = now;
        return now;
    }

    /// <inheritdoc/>
    public int ReadConverter(int channel)
    {
        if (channel == Channels.Pressure)
        {
            _began = _last;
            _inTurn = true;
            long deviation = _last - Sampler!.DueMicroseconds;
            Deviations += deviation;
            DeviationsSquared += deviation * deviation;
        }

        return _board.ReadConverter(channel);
    }

    /// <inheritdoc/>
    public void Send(byte[] frame, int length) => _board.Send(frame, length);

    /// <inheritdoc/>
    public int Receive(byte[] buffer) => _board.Receive(buffer);

    /// <inheritdoc/>
    public void Rest() => _board.Rest();

    /// <inheritdoc/>
    public void CountMemory() => _board.CountMemory();

    /// <inheritdoc/>
    public void PowerSensor(bool on) => _board.PowerSensor(on);

    /// <inheritdoc/>
    public void CopyDeviceId(byte[] destination) => _board.CopyDeviceId(destination);

    /// <inheritdoc/>
    public long CalendarMilliseconds() => _board.CalendarMilliseconds();

    /// <inheritdoc/>
    public long CalendarUncertaintyMilliseconds => _board.CalendarUncertaintyMilliseconds;

    /// <inheritdoc/>
    public bool SetCalendar(long milliseconds, long uncertaintyMilliseconds) =>
        _board.SetCalendar(milliseconds, uncertaintyMilliseconds);

    /// <inheritdoc/>
    public void DeepSleep(long microseconds) => _board.DeepSleep(microseconds);

    /// <inheritdoc/>
    public void Restart() => _board.Restart();
}
