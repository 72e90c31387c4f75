using MathNet.Numerics.Statistics;

namespace Clackbeat.Signal.Flow;

/// <summary>How finely a record follows its beats.</summary>
/// <param name="StepS">Usual step of the samples [s].</param>
/// <param name="DeliveryS">Usual length of a delivery [s].</param>
/// <param name="PeriodS">Pipe period 2L/a by the site [s].</param>
internal sealed record Sampling(double StepS, double DeliveryS, double PeriodS)
{
    /// <summary>With fewer samples in a delivery nothing tells how long it lasts, and the flow is withheld.</summary>
    public const double LeastPerDelivery = 5;

    /// <summary>Whether waves are followed too coarsely to measure their speed.</summary>
    public bool IsCoarse => PeriodS / StepS < SamplesPerPeriod.Good;

    /// <summary>Whether even the delivery falls between the samples.</summary>
    public bool IsTooSlow => DeliveryS / StepS < LeastPerDelivery;

    /// <summary>
    /// A pipe period that the samples can follow [s]. A shorter one is drawn out to it: the water keeps its inertia, and the pipe is softer
    /// than it is. The limit of that is a rigid column behind a short spring, and what is delivered stays the same as long as the steps of
    /// the waves are small against the velocity: over whole steps it is V²L/(2gΔh), whatever the period.
    /// </summary>
    public double FollowedPeriodS(double periodS) => Math.Max(periodS, SamplesPerPeriod.Least * StepS);

    /// <summary>The sampling of some beats.</summary>
    /// <param name="windows">The beats.</param>
    /// <param name="periodS">Pipe period 2L/a [s].</param>
    public static Sampling Of(IReadOnlyList<FlowWindow> windows, double periodS) => new(
        Statistics.Median(windows.Select(w => (w.TimeS[^1] - w.TimeS[0]) / (w.TimeS.Length - 1))),
        Statistics.Median(windows.Select(w => w.Beat.DeliveryLengthS)), periodS);
}
