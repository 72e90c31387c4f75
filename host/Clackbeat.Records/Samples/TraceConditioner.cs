namespace Clackbeat.Records.Samples;

/// <summary>
/// Puts measured samples on one rising time axis and counts what it had to do. Samples out of order by up to a second
/// are sorted in. A repeated instant with the same value is a copy and dropped; with another value it is a sample whose
/// clock did not tick, and stands halfway to the next instant. A clock that jumps back further starts a new stretch one
/// second after the last sample.
/// </summary>
/// <param name="emit">Receives time [s] and gauge pressure [Pa] of each sample, times strictly rising.</param>
public sealed class TraceConditioner(Action<double, double> emit)
{
    private const double HorizonS = 1;

    // A clock that stands still or runs backwards must not make the wait grow with the file.
    private const int MostWaiting = 16_384;
    private readonly List<(double TimeS, double PressurePa)> _waiting = [];
    private int _head;
    private double _offsetS;
    private double _newestS = double.NegativeInfinity;
    private (double TimeS, double PressurePa)? _last;
    private (double TimeS, double PressurePa)? _twin;

    /// <summary>Samples that repeated an instant.</summary>
    public long Repeated { get; private set; }

    /// <summary>Samples that came after a later one.</summary>
    public long Unordered { get; private set; }

    /// <summary>Times the clock jumped back by more than a second.</summary>
    public int ClockJumps { get; private set; }

    /// <summary>Takes the next sample as it came.</summary>
    public void Add(double timeS, double pressurePa)
    {
        timeS += _offsetS;
        if (timeS < _newestS - HorizonS)
        {
            ClockJumps++;
            _offsetS += _newestS + HorizonS - timeS;
            timeS = _newestS + HorizonS;
        }

        if (timeS >= _newestS)
        {
            _newestS = timeS;
            _waiting.Add((timeS, pressurePa));
        }
        else
        {
            Unordered++;
            SortIn(timeS, pressurePa);
        }

        Release(_newestS - HorizonS);
    }

    /// <summary>Hands out what still waits.</summary>
    public void Finish()
    {
        // A twin of the last instant is left out: nothing says when the clock would have ticked again.
        Release(double.PositiveInfinity);
    }

    private void SortIn(double timeS, double pressurePa)
    {
        (int low, int high) = (_head, _waiting.Count);
        while (low < high)
        {
            int middle = (low + high) / 2;
            (low, high) = _waiting[middle].TimeS > timeS ? (low, middle) : (middle + 1, high);
        }

        _waiting.Insert(low, (timeS, pressurePa));
    }

    private void Release(double untilS)
    {
        while (_head < _waiting.Count && (_waiting[_head].TimeS <= untilS || _waiting.Count - _head > MostWaiting))
        {
            Pass(_waiting[_head++]);
        }

        if (_head > 4096 && _head * 2 > _waiting.Count)
        {
            _waiting.RemoveRange(0, _head);
            _head = 0;
        }
    }

    private void Pass((double TimeS, double PressurePa) sample)
    {
        if (_last is { } last && sample.TimeS <= last.TimeS)
        {
            Repeated++;
            _twin ??= sample.PressurePa.Equals(last.PressurePa) ? null : sample;
            return;
        }

        // Halfway lies between the two unless they are neighbours among the doubles.
        if (_twin is { } twin && _last is { } before && 0.5 * (before.TimeS + sample.TimeS) is var halfway
            && halfway > before.TimeS && halfway < sample.TimeS)
        {
            emit(halfway, twin.PressurePa);
        }

        _twin = null;

        _last = sample;
        emit(sample.TimeS, sample.PressurePa);
    }
}
