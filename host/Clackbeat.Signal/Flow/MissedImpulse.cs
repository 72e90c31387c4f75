using MathNet.Numerics.Statistics;

namespace Clackbeat.Signal.Flow;

/// <summary>
/// What slow samples miss of a beat's impulse. The head leaps within one step, so the integral of the head over time is known to the leap
/// times a part of the step, anew in each beat. The water's momentum tells it: by the law of the open valve the column is faster or slower
/// after the beat than its velocity before and the sampled heads lead to. What a beat lacks beyond the mean of all beats is given back at its
/// closure. The mean is left alone, since on the mean over all beats the samples miss nothing, and it tells supply and losses.
/// </summary>
internal static class MissedImpulse
{
    // The closure and the end of delivery, each anywhere within a step: twice the variance of a rectangular distribution.
    private const double StepVariance = 2.0 / 12;

    // Under this part of the closing velocity it is not worth the time.
    private const double LeastShare = 0.01;

    // A standard deviation over the median deviation of a normal distribution.
    private const double NormalSpread = 1.4826;

    // Three times what the samples miss is no accident of sampling any more.
    private const double Most = 3;

    /// <summary>Beats with their impulse made whole; the same ones where the samples miss too little to matter.</summary>
    /// <param name="fit">A fit of these beats.</param>
    /// <param name="windows">The beats.</param>
    /// <param name="stepS">Step of the samples [s].</param>
    public static IReadOnlyList<FlowWindow> GivenBack(ColumnFit fit, IReadOnlyList<FlowWindow> windows, double stepS)
    {
        double leapM = fit.WaveStep * fit.Model.Impedance;
        double missed = leapM * stepS * fit.Model.Drive * Math.Sqrt(StepVariance);
        if (missed < LeastShare * Math.Sqrt(fit.Model.SupplyHeadM / (fit.ValveConstant + fit.Model.Loss)))
        {
            return windows;
        }

        double[] lacks = [.. windows.Select((_, j) => fit.LackOf(j))];
        double middle = Statistics.Median(lacks);
        double spread = NormalSpread * Statistics.Median(lacks.Select(l => Math.Abs(l - middle)));
        double mean = lacks.Average(l => Math.Clamp(l, middle - (Most * spread), middle + (Most * spread)));
        double believed = spread > 0 ? Math.Min(1, missed * missed / (spread * spread)) : 0;
        double most = Most * missed;
        return [.. windows.Select((w, j) => Given(w, -Math.Clamp(believed * (lacks[j] - mean), -most, most) / fit.Model.Drive))];
    }

    /// <summary>A beat with an impulse [m s] more at its closure.</summary>
    private static FlowWindow Given(FlowWindow window, double impulseMS)
    {
        int at = Math.Clamp(window.At(window.Beat.ClosureS), 1, window.TimeS.Length - 2);
        double[] heads = [.. window.HeadM];
        heads[at] += impulseMS / (0.5 * (window.TimeS[at + 1] - window.TimeS[at - 1]));
        return window.WithHeads(heads);
    }
}
