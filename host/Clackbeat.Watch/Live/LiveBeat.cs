using Clackbeat.Signal.Beats;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Watch.Live;

/// <summary>A beat as the page lays it over others: its phases, its height, and its curve aligned at the closure.</summary>
public sealed record LiveBeat
{
    /// <summary>Share of the interval shown before the closure.</summary>
    public const double LeadShare = 0.12;

    private const int MostColumns = 240;
    private const double SamplesPerColumn = 2.5;

    /// <summary>Number since the watch began.</summary>
    public required int Number { get; init; }

    /// <summary>Closure to closure [s].</summary>
    public required double IntervalS { get; init; }

    /// <summary>Closure [s].</summary>
    public required double ClosureS { get; init; }

    /// <summary>Closure to the end of the delivery [s].</summary>
    public required double DeliveryS { get; init; }

    /// <summary>From there until the waste valve stands open again [s].</summary>
    public required double RecoilS { get; init; }

    /// <summary>From there until the waste valve begins to shut [s].</summary>
    public required double OpenS { get; init; }

    /// <summary>The rest, while it shuts [s].</summary>
    public required double ClosingS { get; init; }

    /// <summary>Largest sample [Pa].</summary>
    public required double PeakPa { get; init; }

    /// <summary>Length of a column of the curve [s].</summary>
    public required double ColumnS { get; init; }

    /// <summary>The curve, two points a column, from <see cref="LeadShare"/> of the interval before the closure.</summary>
    public required short[] Steps { get; init; }

    /// <summary>Takes a beat out of the detector's window.</summary>
    public static LiveBeat Of(BeatWindow window, SignalScale scale)
    {
        Beat beat = window.Beat;
        double fromS = beat.ClosureS - (LeadShare * beat.IntervalS);
        long from = window.Samples.FirstAtOrAfter(fromS);
        long to = window.Samples.FirstAtOrAfter(beat.NextClosureS);
        double columnS = (beat.NextClosureS - fromS) / Math.Clamp((to - from) / SamplesPerColumn, 1, MostColumns);
        double closingS = ClosingLengthS(window);
        return new LiveBeat
        {
            Number = beat.Index,
            IntervalS = beat.IntervalS,
            ClosureS = beat.ClosureS,
            DeliveryS = beat.DeliveryLengthS,
            RecoilS = beat.RecoilLengthS,
            OpenS = Math.Max(0, beat.OpenLengthS - closingS),
            ClosingS = closingS,
            PeakPa = beat.PeakPa,
            ColumnS = columnS,
            Steps = Columns(window.Samples.TimesS(from, to), window.Samples.PressuresPa(from, to), fromS, columnS, scale),
        };
    }

    private static short[] Columns(
        ReadOnlySpan<double> timesS, ReadOnlySpan<double> pressuresPa, double fromS, double columnS, SignalScale scale)
    {
        var steps = new List<short>(2 * MostColumns);
        ColumnBuilder open = ColumnBuilder.Empty;
        int column = 0;
        for (int i = 0; i < timesS.Length; i++)
        {
            int at = Math.Min(MostColumns, (int)((timesS[i] - fromS) / columnS));
            for (; column < at; column++)
            {
                Close();
            }

            open.Add(pressuresPa[i]);
        }

        Close();
        return [.. steps];

        void Close()
        {
            (short first, short second) = open.Steps(scale);
            steps.Add(first);
            steps.Add(second);
            open = ColumnBuilder.Empty;
        }
    }

    /// <summary>
    /// While the plug travels to its seat the body's pressure leaves the slow rise of the open phase. The last crossing
    /// of a tenth of the way from there to the plateau is where that begins to show.
    /// </summary>
    private static double ClosingLengthS(BeatWindow window)
    {
        Beat beat = window.Beat;
        long end = window.Samples.FirstAtOrAfter(beat.NextClosureS);
        long lateFrom = window.Samples.FirstAtOrAfter(beat.NextClosureS - (0.3 * beat.OpenLengthS));
        long lateTo = window.Samples.FirstAtOrAfter(beat.NextClosureS - (0.1 * beat.OpenLengthS));
        double[] late = window.Samples.PressuresPa(lateFrom, lateTo).ToArray();
        if (late.Length == 0)
        {
            return 0;
        }

        double latePa = ArrayStatistics.MedianInplace(late);
        double leavesPa = latePa + (0.1 * (beat.DeliveryPa - latePa));
        long at = end - 1;
        while (at > lateFrom && window.Samples.PressurePa(at) > leavesPa)
        {
            at--;
        }

        return Math.Max(0, beat.NextClosureS - window.Samples.TimeS(at));
    }
}
