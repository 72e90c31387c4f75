namespace Clackbeat.Hydraulics.Fatigue;

/// <summary>
/// Cycles sorted by range and mean into a fixed number of cells. Each cell keeps the sums of what fell into it, so that its
/// representative cycle is the true average and not the cell's middle. Made for gauge pressures [Pa]; any unit will do.
/// </summary>
public sealed class RainflowHistogram
{
    private readonly Cell[,] _cells;

    /// <summary>An empty histogram over a span of values; cycles beyond it go into the outermost cells with their true size.</summary>
    /// <param name="low">Lowest value expected.</param>
    /// <param name="high">Highest value expected, above <paramref name="low"/>.</param>
    /// <param name="cells">Cells along each axis, 2 to 1000.</param>
    public RainflowHistogram(double low, double high, int cells = 100)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(high, low);
        ArgumentOutOfRangeException.ThrowIfLessThan(cells, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(cells, 1000);
        Low = low;
        High = high;
        CellsPerAxis = cells;
        _cells = new Cell[cells, cells];
    }

    /// <summary>Lower end of the mean axis; the range axis starts at 0.</summary>
    public double Low { get; }

    /// <summary>Upper end of the mean axis; the range axis ends at High − Low.</summary>
    public double High { get; }

    /// <summary>Cells along each axis.</summary>
    public int CellsPerAxis { get; }

    /// <summary>Cycles counted, halves as halves.</summary>
    public double TotalCount { get; private set; }

    /// <summary>Largest range seen; 0 while empty.</summary>
    public double LargestRange { get; private set; }

    /// <summary>Counts a record in one go, rounded to a thousandth of the span.</summary>
    /// <param name="samples">Samples in time order; NaN is a gap.</param>
    /// <param name="low">Lowest value expected.</param>
    /// <param name="high">Highest value expected.</param>
    public static RainflowHistogram Of(ReadOnlySpan<double> samples, double low, double high)
    {
        var histogram = new RainflowHistogram(low, high);
        var counter = new RainflowCounter(histogram.Add, (high - low) / 1000);
        counter.Add(samples);
        counter.Finish();
        return histogram;
    }

    /// <summary>Sorts a cycle in.</summary>
    /// <param name="cycle">The cycle.</param>
    public void Add(RainflowCycle cycle)
    {
        ref Cell cell = ref _cells[Index(cycle.Range), Index(cycle.Mean - Low)];
        cell.Count += cycle.Count;
        cell.RangeSum += cycle.Range * cycle.Count;
        cell.MeanSum += cycle.Mean * cycle.Count;
        TotalCount += cycle.Count;
        LargestRange = Math.Max(LargestRange, cycle.Range);
    }

    /// <summary>Count in one cell, for pictures.</summary>
    /// <param name="rangeCell">Cell along the range axis.</param>
    /// <param name="meanCell">Cell along the mean axis.</param>
    public double CountAt(int rangeCell, int meanCell) => _cells[rangeCell, meanCell].Count;

    /// <summary>The cells that hold anything, each as its average cycle.</summary>
    public IEnumerable<RainflowCycle> Cycles()
    {
        foreach (Cell cell in _cells)
        {
            if (cell.Count > 0)
            {
                yield return new RainflowCycle(cell.RangeSum / cell.Count, cell.MeanSum / cell.Count, cell.Count);
            }
        }
    }

    private int Index(double distance) =>
        (int)Math.Clamp(distance / (High - Low) * CellsPerAxis, 0, CellsPerAxis - 1);

    private struct Cell
    {
        public double Count;
        public double RangeSum;
        public double MeanSum;
    }
}
