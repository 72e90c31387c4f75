namespace Clackbeat.Signal.Flow;

/// <summary>The figures a fit leads to, before the pipe's area: flows are volume over area and time [m/s].</summary>
/// <param name="Delivered">Delivered flow over the pipe's area [m/s].</param>
/// <param name="Waste">Waste flow over the pipe's area [m/s].</param>
/// <param name="ClosingVelocity">Closing velocity [m/s].</param>
/// <param name="Share">Delivered over drawn.</param>
/// <param name="LiftM">Mean head under which water is delivered, weighted by flow, times <paramref name="Share"/> [m].</param>
/// <param name="BiasM">What the sensor reads too high [m].</param>
internal readonly record struct FlowFigures(
    double Delivered, double Waste, double ClosingVelocity, double Share, double LiftM, double BiasM)
{
    /// <summary>The figures of beats taken together.</summary>
    public static FlowFigures Of(IReadOnlyCollection<BeatBalance> beats, double biasM)
    {
        double seconds = beats.Sum(b => b.IntervalS);
        double drawn = beats.Sum(b => b.DrawnM);
        double delivered = beats.Sum(b => b.DeliveredM);
        return new FlowFigures(
            delivered / seconds, (drawn - delivered) / seconds, beats.Average(b => b.ClosingVelocity),
            delivered / drawn, beats.Sum(b => b.DeliveredHeadM2) / drawn, biasM);
    }

    /// <summary>The figures one after the other, for sums that treat them alike.</summary>
    public double[] ToArray() => [Delivered, Waste, ClosingVelocity, Share, LiftM, BiasM];

    /// <summary>Back from such an array.</summary>
    public static FlowFigures FromArray(double[] figures) =>
        new(figures[0], figures[1], figures[2], figures[3], figures[4], figures[5]);
}
