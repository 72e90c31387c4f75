using Clackbeat.Logger.Board;
using Clackbeat.Protocol;

namespace Clackbeat.Logger.Reporting;

/// <summary>The line to the host. One frame drains before the next is handed over.</summary>
public sealed class LineSink : IFrameSink
{
    private const int BitsPerByte = 10;

    private readonly ILoggerBoard _board;
    private readonly int _microsecondsPerByte;
    private long _freeAt;

    /// <summary>Makes the sink for a board and the speed of its line [bit/s].</summary>
    public LineSink(ILoggerBoard board, int baud)
    {
        _board = board;
        _microsecondsPerByte = ((1_000_000 * BitsPerByte) + baud - 1) / baud;
    }

    /// <inheritdoc/>
    public int LossReason => LossReasons.Line;

    /// <inheritdoc/>
    public bool CanTake(long nowMicroseconds) => nowMicroseconds >= _freeAt;

    /// <inheritdoc/>
    public bool Take(byte[] frame, int length, long nowMicroseconds)
    {
        _board.Send(frame, length);
        _freeAt = nowMicroseconds + (length * _microsecondsPerByte);
        return true;
    }
}
