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
    public FlowWindow(Beat beat, double[] timeS, double[] headM) => (Beat, TimeS, HeadM) = (beat, timeS, headM);

    /// <summary>The beat.</summary>
    public Beat Beat { get; }

    /// <summary>Times [s].</summary>
    public double[] TimeS { get; }

    /// <summary>Heads as the sensor saw them [m above datum].</summary>
    public double[] HeadM { get; }

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
    public FlowWindow Scaled(double factor) => new(Beat, TimeS, [.. HeadM.Select(h => h * factor)]);

    /// <summary>Copies a beat's samples.</summary>
    /// <param name="beat">The beat.</param>
    /// <param name="timeS">Times [s].</param>
    /// <param name="pressurePa">Gauge pressures [Pa].</param>
    /// <param name="headPerPa">Head of one pascal [m].</param>
    /// <param name="sensorHeightM">Sensor above the datum [m].</param>
    public static FlowWindow Copy(
        Beat beat, ReadOnlySpan<double> timeS, ReadOnlySpan<double> pressurePa, double headPerPa, double sensorHeightM)
    {
        double[]? heads = new double[pressurePa.Length];
        for (int i = 0; i < heads.Length; i++)
        {
            heads[i] = (pressurePa[i] * headPerPa) + sensorHeightM;
        }

        return new FlowWindow(beat, timeS.ToArray(), heads);
    }
}
