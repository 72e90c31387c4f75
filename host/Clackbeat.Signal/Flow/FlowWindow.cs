using Clackbeat.Signal.Beats;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Signal.Flow;

/// <summary>A beat kept for the flow: its marks and its samples as heads, from the open phase before it to the delivery after it.</summary>
internal sealed class FlowWindow
{
    /// <summary>Joins a beat with its samples.</summary>
    /// <param name="beat">The beat.</param>
    /// <param name="timeS">Times [s], rising.</param>
    /// <param name="headM">Heads as the sensor saw them [m above datum], same length.</param>
    public FlowWindow(Beat beat, double[] timeS, double[] headM)
        : this(beat, timeS, headM, null)
    {
    }

    private FlowWindow(Beat beat, double[] timeS, double[] headM, double[]? swingM, ShutSpan? shut = null)
    {
        (Beat, TimeS, HeadM, SwingM, Shut) = (beat, timeS, headM, swingM, shut);
        ColumnHeadM = swingM is null ? headM : [.. headM.Zip(swingM, (h, z) => h - z)];
    }

    /// <summary>The beat.</summary>
    public Beat Beat { get; }

    /// <summary>Times [s].</summary>
    public double[] TimeS { get; }

    /// <summary>Heads as the sensor saw them [m above datum].</summary>
    public double[] HeadM { get; }

    /// <summary>
    /// The same less the swing of a stand pipe's level [m]. Only the difference of both ends' heads moves the column, and the level moves
    /// slowly against the waves, so its swing may be taken off at the other end.
    /// </summary>
    public double[] ColumnHeadM { get; }

    /// <summary>How far the level at the intake stands from its mean [m], at each sample; null where it stands still.</summary>
    public double[]? SwingM { get; }

    /// <summary>When both valves are shut after the delivery; null where the record doesn't show it.</summary>
    public ShutSpan? Shut { get; }

    /// <summary>The same beat with the span in which both valves are shut.</summary>
    public FlowWindow WithShut(ShutSpan? shut) => new(Beat, TimeS, HeadM, SwingM, shut);

    /// <summary>The same beat with a level that swings [m].</summary>
    public FlowWindow WithSwing(double[] swingM) => new(Beat, TimeS, HeadM, swingM, Shut);

    /// <summary>The same beat with other heads [m above datum].</summary>
    public FlowWindow WithHeads(double[] headM) => new(Beat, TimeS, headM, SwingM, Shut);

    /// <summary>Number of the first sample at or after a time.</summary>
    public int At(double timeS)
    {
        int place = Array.BinarySearch(TimeS, timeS);
        return place < 0 ? ~place : place;
    }

    /// <summary>Median head between two times [m above datum].</summary>
    public double MedianHeadM(double fromS, double toS)
    {
        int from = Math.Min(At(fromS), HeadM.Length - 1);
        int to = Math.Clamp(At(toS), from + 1, HeadM.Length);
        return ArrayStatistics.MedianInplace(HeadM[from..to]);
    }

    /// <summary>The same beat seen by a sensor whose span is larger.</summary>
    public FlowWindow Scaled(double factor) => WithHeads([.. HeadM.Select(h => h * factor)]);

    /// <summary>Copies a beat's samples.</summary>
    /// <param name="beat">The beat.</param>
    /// <param name="timeS">Times [s].</param>
    /// <param name="pressurePa">Gauge pressures [Pa].</param>
    /// <param name="headPerPa">Head of one pascal [m].</param>
    /// <param name="sensorHeightM">Sensor above the datum [m].</param>
    public static FlowWindow Copy(
        Beat beat, ReadOnlySpan<double> timeS, ReadOnlySpan<double> pressurePa, double headPerPa, double sensorHeightM)
    {
        double[] heads = new double[pressurePa.Length];
        for (int i = 0; i < heads.Length; i++)
        {
            heads[i] = (pressurePa[i] * headPerPa) + sensorHeightM;
        }

        return new FlowWindow(beat, timeS.ToArray(), heads);
    }
}
