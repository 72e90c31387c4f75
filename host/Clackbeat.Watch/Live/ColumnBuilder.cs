namespace Clackbeat.Watch.Live;

/// <summary>
/// Lowest and highest sample of one column of a drawing, in the order in which they came: a line through both in turn
/// keeps every spike, however few columns there are.
/// </summary>
internal struct ColumnBuilder
{
    private double _lowPa;
    private double _highPa;
    private bool _lowFirst;

    /// <summary>No sample has come.</summary>
    public bool IsEmpty { get; private set; }

    /// <summary>An empty column.</summary>
    public static ColumnBuilder Empty => new() { IsEmpty = true };

    /// <summary>Takes a sample [Pa].</summary>
    public void Add(double pressurePa)
    {
        if (IsEmpty)
        {
            (_lowPa, _highPa, IsEmpty, _lowFirst) = (pressurePa, pressurePa, false, true);
        }
        else if (pressurePa < _lowPa)
        {
            (_lowPa, _lowFirst) = (pressurePa, false);
        }
        else if (pressurePa > _highPa)
        {
            (_highPa, _lowFirst) = (pressurePa, true);
        }
    }

    /// <summary>The two points in order; gaps for an empty column.</summary>
    public readonly (short First, short Second) Steps(SignalScale scale) => IsEmpty
        ? (SignalScale.Gap, SignalScale.Gap)
        : _lowFirst ? (scale.Of(_lowPa), scale.Of(_highPa)) : (scale.Of(_highPa), scale.Of(_lowPa));
}
