using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Figures;
using Clackbeat.Watch.Live;

namespace Clackbeat.Watch.Figures;

/// <summary>The healthy beat that others are laid over, as a band.</summary>
/// <param name="IsGiven">From a record the user named; otherwise from the first minute here in which nothing spoke of a fault.</param>
/// <param name="LeadS">Time before the closure at which the band begins [s].</param>
/// <param name="ColumnS">Length of a column [s].</param>
/// <param name="Low">Lower edge, steps.</param>
/// <param name="High">Upper edge, steps.</param>
internal sealed record BaselineBand(bool IsGiven, double LeadS, double ColumnS, short[] Low, short[] High)
{
    private const int Columns = 200;

    // Nine beats of ten lie between the edges: a single odd beat doesn't widen the band.
    private const double OuterShare = 0.05;

    /// <summary>The band of some beats; null for fewer than three.</summary>
    public static BaselineBand? Of(RamAnalysis well, SignalScale scale, bool isGiven)
    {
        IReadOnlyList<TraceCurve> curves = well.Picture.Overlay;
        if (curves.Count < 3 || well.Beats.IntervalMedianS is not { } intervalS)
        {
            return null;
        }

        double leadS = LiveBeat.LeadShare * intervalS;
        double columnS = (intervalS + leadS) / Columns;
        var lows = new List<double>[Columns];
        var highs = new List<double>[Columns];
        for (int column = 0; column < Columns; column++)
        {
            (lows[column], highs[column]) = ([], []);
        }

        foreach (TraceCurve curve in curves)
        {
            Sort(curve, leadS, columnS, lows, highs);
        }

        return new BaselineBand(
            isGiven, leadS, columnS, Edge(lows, OuterShare, scale), Edge(highs, 1 - OuterShare, scale));
    }

    private static void Sort(TraceCurve curve, double leadS, double columnS, List<double>[] lows, List<double>[] highs)
    {
        Span<double> low = stackalloc double[Columns];
        Span<double> high = stackalloc double[Columns];
        low.Fill(double.PositiveInfinity);
        high.Fill(double.NegativeInfinity);
        for (int i = 0; i < curve.TimeS.Count; i++)
        {
            int column = (int)Math.Floor((curve.TimeS[i] + leadS) / columnS);
            if (column is >= 0 and < Columns)
            {
                low[column] = Math.Min(low[column], curve.PressurePa[i]);
                high[column] = Math.Max(high[column], curve.PressurePa[i]);
            }
        }

        for (int column = 0; column < Columns; column++)
        {
            if (double.IsFinite(low[column]))
            {
                lows[column].Add(low[column]);
                highs[column].Add(high[column]);
            }
        }
    }

    // A beat may be a sample early or late: the band reaches over its neighbours.
    private static short[] Edge(List<double>[] columns, double share, SignalScale scale)
    {
        short[]? edge = new short[Columns];
        for (int column = 0; column < Columns; column++)
        {
            double[] near =
            [
                .. Enumerable.Range(column - 1, 3).Where(c => c is >= 0 and < Columns).SelectMany(c => columns[c]).Order(),
            ];
            edge[column] = near.Length == 0 ? SignalScale.Gap : scale.Of(near[(int)Math.Round(share * (near.Length - 1))]);
        }

        return edge;
    }
}

/// <summary>The ram when it was well: its figures, the features of its beat, and the band of its curves.</summary>
/// <param name="Analysis">What the record told.</param>
/// <param name="Name">What the user calls the record.</param>
public sealed record LiveBaseline(RamAnalysis Analysis, string Name)
{
    internal Signature? Signature => Analysis.Signature;
}
