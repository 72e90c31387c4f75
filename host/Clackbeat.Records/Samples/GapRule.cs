namespace Clackbeat.Records.Samples;

/// <summary>Where samples are missing.</summary>
public static class GapRule
{
    // Twice the usual step is one lost sample, and half a step more is more jitter than loggers have; a step beyond both has
    // lost one at least.
    private const double LeastSteps = 2.5;

    /// <summary>Whether at least one sample is missing within a step.</summary>
    /// <param name="stepS">From one sample to the next [s].</param>
    /// <param name="usualStepS">The usual step [s].</param>
    public static bool IsGap(double stepS, double usualStepS) => stepS > LeastSteps * usualStepS;
}
