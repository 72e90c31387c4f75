namespace Clackbeat.Hydraulics.Fatigue;

/// <summary>
/// Rainflow counting as the samples come: any chunking gives the same cycles. First and last sample count as turning points.
/// </summary>
/// <remarks>
/// Closed cycles leave at once through the callback; what stays is a rest of ever narrower ranges. Rounded to a resolution r
/// over a span s, it can hold at most 2 s/r points, which bounds the memory whatever the record's length. A reversal counts
/// once the history has turned back by more than the hysteresis, which keeps a sensor's noise from being counted as cycles.
/// </remarks>
public sealed class RainflowCounter
{
    private readonly Action<RainflowCycle> _onCycle;
    private readonly double _resolution;
    private readonly double _hysteresis;
    private readonly RainflowConvention _convention;
    private readonly List<double> _stack = [];
    private double? _candidate;
    private int _direction;

    /// <summary>Makes a counter.</summary>
    /// <param name="onCycle">Gets each cycle once.</param>
    /// <param name="resolution">Samples are rounded to multiples of this; 0 keeps them as they are, unbounded.</param>
    /// <param name="convention">Way of counting.</param>
    /// <param name="hysteresis">Swings of this size or less are not counted; 0 counts every one.</param>
    public RainflowCounter(
        Action<RainflowCycle> onCycle,
        double resolution = 0,
        RainflowConvention convention = RainflowConvention.AstmThreePoint,
        double hysteresis = 0)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(resolution);
        ArgumentOutOfRangeException.ThrowIfNegative(hysteresis);
        _hysteresis = hysteresis;
        _onCycle = onCycle;
        _resolution = resolution;
        _convention = convention;
    }

    /// <summary>Turning points that no whole cycle has taken up yet.</summary>
    public int Pending => _stack.Count + (_candidate is null ? 0 : 1);

    /// <summary>Takes samples in. NaN is a gap: the samples beside it are joined.</summary>
    /// <param name="samples">Samples in time order.</param>
    public void Add(ReadOnlySpan<double> samples)
    {
        foreach (double sample in samples)
        {
            Add(sample);
        }
    }

    /// <summary>Takes one sample in.</summary>
    /// <param name="sample">The sample; NaN is left out.</param>
    public void Add(double sample)
    {
        if (!double.IsFinite(sample))
        {
            return;
        }

        double value = _resolution > 0 ? Math.Round(sample / _resolution) * _resolution : sample;
        if (_candidate is not { } last)
        {
            _candidate = value;
            return;
        }

        // The candidate is the farthest point of the run so far; it becomes a turning point once the run has turned.
        double onwards = (value - last) * _direction;
        if (onwards > 0)
        {
            _candidate = value;
        }
        else if (Math.Abs(value - last) > _hysteresis)
        {
            Push(last);
            _direction = Math.Sign(value - last);
            _candidate = value;
        }
    }

    /// <summary>Ends the history: what is left counts as half cycles. The counter is empty afterwards.</summary>
    public void Finish()
    {
        if (_candidate is { } last && _direction != 0)
        {
            Push(last);
        }

        for (int i = 1; i < _stack.Count; i++)
        {
            Emit(_stack[i - 1], _stack[i], 0.5);
        }

        _stack.Clear();
        _candidate = null;
        _direction = 0;
    }

    private void Push(double point)
    {
        _stack.Add(point);
        if (_convention == RainflowConvention.FourPoint)
        {
            CloseFourPoint();
        }
        else
        {
            CloseThreePoint();
        }
    }

    private void CloseFourPoint()
    {
        while (_stack.Count >= 4)
        {
            double inner = Range(2);
            if (inner > Range(1) || inner > Range(3))
            {
                return;
            }

            Emit(_stack[^3], _stack[^2], 1);
            _stack.RemoveRange(_stack.Count - 3, 2);
        }
    }

    // X is the newest range, Y the one before it (ASTM E1049-85 §5.4.4 steps 2 to 5).
    private void CloseThreePoint()
    {
        while (_stack.Count >= 3 && Range(1) >= Range(2))
        {
            if (_stack.Count == 3)
            {
                Emit(_stack[0], _stack[1], 0.5);
                _stack.RemoveAt(0);
                return;
            }

            Emit(_stack[^3], _stack[^2], 1);
            _stack.RemoveRange(_stack.Count - 3, 2);
        }
    }

    private double Range(int fromEnd) => Math.Abs(_stack[^fromEnd] - _stack[^(fromEnd + 1)]);

    private void Emit(double a, double b, double count) => _onCycle(new RainflowCycle(Math.Abs(b - a), (a + b) / 2, count));
}
