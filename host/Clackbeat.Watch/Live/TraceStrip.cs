namespace Clackbeat.Watch.Live;

/// <summary>
/// The newest stretch of the trace as columns of equal length, two points each, in a ring: what a screen needs and no
/// more, whatever the sampling rate. A column without samples is a gap.
/// </summary>
internal sealed class TraceStrip
{
    /// <summary>How much is kept for a page that opens [s].</summary>
    public const double KeptS = 20;

    // Two points in five milliseconds: finer than a pixel of any screen that shows some seconds.
    private const double FinestColumnS = 0.005;

    // Fewer than two samples a column would leave some empty by chance and look like gaps.
    private const double SamplesPerColumn = 2.5;

    private readonly SignalScale _scale;
    private readonly short[] _steps;
    private ColumnBuilder _open = ColumnBuilder.Empty;

    /// <summary>Makes a strip.</summary>
    /// <param name="scale">Pressures as steps.</param>
    /// <param name="stepS">Usual time between samples [s].</param>
    public TraceStrip(SignalScale scale, double stepS)
    {
        _scale = scale;
        ColumnS = Math.Max(FinestColumnS, SamplesPerColumn * stepS);
        Columns = (int)Math.Ceiling(KeptS / ColumnS);
        _steps = new short[2 * Columns];
        Array.Fill(_steps, SignalScale.Gap);
    }

    /// <summary>Length of a column [s].</summary>
    public double ColumnS { get; }

    /// <summary>Columns kept.</summary>
    public int Columns { get; }

    /// <summary>Number of the column that is being filled; all before it are finished.</summary>
    public long Next { get; private set; } = -1;

    /// <summary>Number of the oldest column kept.</summary>
    public long First => Math.Max(Begin, Next - Columns);

    private long Begin { get; set; }

    /// <summary>Takes the next sample; times never step back.</summary>
    public void Add(double timeS, double pressurePa)
    {
        long column = (long)Math.Floor(timeS / ColumnS);
        if (Next < 0)
        {
            (Begin, Next) = (column, column);
        }

        if (column > Next)
        {
            Close(column);
        }

        _open.Add(pressurePa);
    }

    /// <summary>Finished columns from a number on, as far as they are kept.</summary>
    /// <param name="from">Number of the first column wanted; set to the first that is given.</param>
    public short[] From(ref long from)
    {
        from = Math.Max(from, First);
        int count = (int)Math.Max(0, Next - from);
        short[] steps = new short[2 * count];
        for (int i = 0; i < count; i++)
        {
            int slot = Slot(from + i);
            (steps[2 * i], steps[(2 * i) + 1]) = (_steps[slot], _steps[slot + 1]);
        }

        return steps;
    }

    private void Close(long upTo)
    {
        int slot = Slot(Next);
        (_steps[slot], _steps[slot + 1]) = _open.Steps(_scale);
        _open = ColumnBuilder.Empty;
        for (long gap = Math.Max(Next + 1, upTo - Columns); gap < upTo; gap++)
        {
            slot = Slot(gap);
            (_steps[slot], _steps[slot + 1]) = (SignalScale.Gap, SignalScale.Gap);
        }

        Next = upTo;
    }

    private int Slot(long column) => 2 * (int)(((column % Columns) + Columns) % Columns);
}
