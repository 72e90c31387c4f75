using Clackbeat.Records.Samples;

namespace Clackbeat.Signal.Figures;

/// <summary>What a board adds to the uncertainty of a sample's instant, as a standard uncertainty.</summary>
internal static class InstantAccuracy
{
    /// <summary>
    /// Of one instant [s]; 0 where no board measured itself. The conversion is a bound (JCGM 100:2008 §4.3.7). An interrupt between the clock's
    /// reading and the conversion is seen by nobody: the jitter shows how large such delays are on this board.
    /// </summary>
    /// <param name="board">What the board measured.</param>
    public static double StandardS(BoardTiming? board) =>
        board is null ? 0 : double.Hypot(Expanded.OfBound(board.InstantBoundS), board.JitterS);
}
