using Clackbeat.Logger.Board;
using Clackbeat.Logger.Reporting;

namespace Clackbeat.Logger.Measuring;

/// <summary>
/// The line without content: it sends as many zero bytes as a frame has, which are borders and nothing to a reader
/// (SPEC §1), so that the transmitter takes its time and nobody hears a sample.
/// </summary>
public sealed class EmptyLine : IFrameSink
{
    private readonly LineSink _line;
    private readonly byte[] _zeros;

    /// <summary>Makes it over a board's line.</summary>
    /// <param name="board">The board.</param>
    /// <param name="baud">Speed of its line [bit/s].</param>
    /// <param name="longest">Length of the longest frame [bytes].</param>
    public EmptyLine(ILoggerBoard board, int baud, int longest)
    {
        _line = new LineSink(board, baud);
        _zeros = new byte[longest];
    }

    /// <inheritdoc/>
    public int LossReason => _line.LossReason;

    /// <inheritdoc/>
    public bool CanTake(long nowMicroseconds) => _line.CanTake(nowMicroseconds);

    /// <inheritdoc/>
    public bool Take(byte[] frame, int length, long nowMicroseconds) => _line.Take(_zeros, length, nowMicroseconds);
}
