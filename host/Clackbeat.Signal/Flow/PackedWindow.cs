using Clackbeat.Signal.Beats;

namespace Clackbeat.Signal.Flow;

/// <summary>
/// A kept beat in half of the memory: single precision, times from the window's start. That is a quarter of a microsecond in
/// four seconds and some micrometres of head, a thousandth of what any sensor or clock tells apart.
/// </summary>
internal sealed class PackedWindow
{
    private readonly Beat _beat;
    private readonly double _startS;
    private readonly ShutSpan? _shut;
    private readonly float[] _afterS;
    private readonly float[] _headM;

    /// <summary>Packs a window.</summary>
    public PackedWindow(FlowWindow window)
    {
        (_beat, _startS, _shut) = (window.Beat, window.TimeS[0], window.Shut);
        _afterS = new float[window.TimeS.Length];
        _headM = new float[window.TimeS.Length];
        for (int i = 0; i < _afterS.Length; i++)
        {
            (_afterS[i], _headM[i]) = ((float)(window.TimeS[i] - _startS), (float)window.HeadM[i]);
        }
    }

    /// <summary>The beat.</summary>
    public Beat Beat => _beat;

    /// <summary>Samples.</summary>
    public int Length => _afterS.Length;

    /// <summary>The window to work with.</summary>
    public FlowWindow Unpack()
    {
        double[] timeS = new double[Length];
        double[] headM = new double[Length];
        for (int i = 0; i < timeS.Length; i++)
        {
            (timeS[i], headM[i]) = (_startS + _afterS[i], _headM[i]);
        }

        return new FlowWindow(_beat, timeS, headM).WithShut(_shut);
    }
}
