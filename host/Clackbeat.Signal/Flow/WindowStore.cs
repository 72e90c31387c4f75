using Clackbeat.Signal.Beats;

namespace Clackbeat.Signal.Flow;

/// <summary>
/// The beats kept until the record ends. Memory is bounded: past the limit every other kept beat is let go and from then on
/// only every second, fourth … beat is kept, so that what remains is spread evenly over the record.
/// </summary>
internal sealed class WindowStore(long mostSamples)
{
    private readonly List<PackedWindow> _windows = [];
    private long _samples;
    private long _seen;

    /// <summary>Beats kept.</summary>
    public int Count => _windows.Count;

    /// <summary>A kept beat, unpacked.</summary>
    /// <param name="number">Its number, from 0.</param>
    public FlowWindow Unpack(int number) => _windows[number].Unpack();

    /// <summary>Lets go of the beats that began outside a span.</summary>
    public void KeepWithin(double fromS, double untilS) =>
        _windows.RemoveAll(w => w.Beat.ClosureS < fromS || w.Beat.ClosureS >= untilS);

    /// <summary>One beat in so many is kept.</summary>
    public int Every { get; private set; } = 1;

    /// <summary>Whether a beat is to be kept; asked once for each beat.</summary>
    public bool Wants(Beat beat) => !beat.HasGap && _seen++ % Every == 0;

    /// <summary>Keeps a beat.</summary>
    public void Keep(FlowWindow window)
    {
        _windows.Add(new PackedWindow(window));
        _samples += window.TimeS.Length;
        if (_samples > mostSamples)
        {
            Every *= 2;
            List<PackedWindow> half = [.. _windows.Where((_, i) => i % 2 == 0)];
            _windows.Clear();
            _windows.AddRange(half);
            _samples = _windows.Sum(w => (long)w.Length);
        }
    }

    /// <summary>At most so many of the kept beats, spread evenly.</summary>
    public List<FlowWindow> Some(int most)
    {
        int every = Math.Max(1, (_windows.Count + most - 1) / most);
        return [.. _windows.Where((_, i) => i % every == 0).Select(w => w.Unpack())];
    }
}
