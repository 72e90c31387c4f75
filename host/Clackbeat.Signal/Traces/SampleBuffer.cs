namespace Clackbeat.Signal.Traces;

/// <summary>
/// The recent samples of a record, addressed by their number in the whole record. Old samples are dropped from the
/// front, so memory follows what is still needed and not the record's length.
/// </summary>
public sealed class SampleBuffer
{
    private double[] _timeS = GC.AllocateUninitializedArray<double>(8192);
    private double[] _pressurePa = GC.AllocateUninitializedArray<double>(8192);
    private int _start;
    private int _count;

    /// <summary>Number of the oldest sample held.</summary>
    public long First { get; private set; }

    /// <summary>Number of the sample after the newest.</summary>
    public long End => First + _count;

    /// <summary>So many more samples fit before those held are moved to make room.</summary>
    public int Room => _timeS.Length - _start - _count;

    /// <summary>Time of a sample that is held [s].</summary>
    public double TimeS(long index) => _timeS[Slot(index)];

    /// <summary>Gauge pressure of a sample that is held [Pa].</summary>
    public double PressurePa(long index) => _pressurePa[Slot(index)];

    /// <summary>Adds the next sample.</summary>
    public void Add(double timeS, double pressurePa)
    {
        int slot = _start + _count;
        if (slot == _timeS.Length)
        {
            MakeRoom(1);
            slot = _start + _count;
        }

        _timeS[slot] = timeS;
        _pressurePa[slot] = pressurePa;
        _count++;
    }

    /// <summary>Adds the next samples.</summary>
    public void Add(ReadOnlySpan<double> timeS, ReadOnlySpan<double> pressurePa)
    {
        if (_start + _count + timeS.Length > _timeS.Length)
        {
            MakeRoom(timeS.Length);
        }

        timeS.CopyTo(_timeS.AsSpan(_start + _count));
        pressurePa.CopyTo(_pressurePa.AsSpan(_start + _count));
        _count += timeS.Length;
    }

    /// <summary>Forgets every sample before the given one.</summary>
    public void DropBefore(long index)
    {
        int drop = (int)Math.Clamp(index - First, 0, _count);
        _start += drop;
        _count -= drop;
        First += drop;
    }

    /// <summary>Times of the samples in [from, to), as far as they are held [s]. Valid until the next change.</summary>
    public ReadOnlySpan<double> TimesS(long from, long to) => Span(_timeS, from, to);

    /// <summary>Gauge pressures of the samples in [from, to), as far as they are held [Pa]. Valid until the next change.</summary>
    public ReadOnlySpan<double> PressuresPa(long from, long to) => Span(_pressurePa, from, to);

    /// <summary>Number of the first held sample at or after an instant; <see cref="End"/> when there is none.</summary>
    public long FirstAtOrAfter(double timeS)
    {
        int found = _timeS.AsSpan(_start, _count).BinarySearch(timeS);
        return First + (found >= 0 ? found : ~found);
    }

    private ReadOnlySpan<double> Span(double[] values, long from, long to)
    {
        from = Math.Clamp(from, First, End);
        to = Math.Clamp(to, from, End);
        return values.AsSpan(Slot(from), (int)(to - from));
    }

    private int Slot(long index) => _start + (int)(index - First);

    private void MakeRoom(int adding)
    {
        // Sliding back is enough while at least half of the array is free; otherwise grow.
        int length = _timeS.Length;
        while (2L * (_count + adding - 1) > length)
        {
            length *= 4;
        }

        double[] times = length == _timeS.Length ? _timeS : GC.AllocateUninitializedArray<double>(length);
        double[] pressures = length == _pressurePa.Length ? _pressurePa : GC.AllocateUninitializedArray<double>(length);
        Array.Copy(_timeS, _start, times, 0, _count);
        Array.Copy(_pressurePa, _start, pressures, 0, _count);
        (_timeS, _pressurePa, _start) = (times, pressures, 0);
    }
}
