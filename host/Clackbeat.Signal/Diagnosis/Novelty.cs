namespace Clackbeat.Signal.Diagnosis;

/// <summary>
/// What a judgement is worth outside what it was learnt from. Novelty is the share of a record's features that lie outside nearly
/// everything in the study; the more there are, the less the rest may say.
/// </summary>
internal static class Novelty
{
    /// <summary>So many features outside everything ever tried mean another kind of ram, or a wrong site file: nothing is said.</summary>
    public const double Limit = 0.25;

    /// <summary>From here on it is told that the judgement is held back.</summary>
    public const double Mentioned = 0.1;

    // Of a record as the study holds them one feature in 250 lies outside; two or three of forty are no surprise.
    private const double Usual = 0.06;

    // The study's loggers sampled up to four times as fast as their baseline's, or as slowly.
    private const double UsualRate = 1.4;
    private const double LargestRate = 2.3;

    /// <summary>What it counts for that a record was sampled at another rate than its baseline: features that hang on the rate have moved.</summary>
    /// <param name="covariates">How the recording differs from the baseline's.</param>
    public static double OfRate(IReadOnlyDictionary<Covariate, double> covariates) =>
        covariates.TryGetValue(Covariate.Sampling, out double change)
            ? Limit * Math.Clamp((Math.Abs(change) - UsualRate) / (LargestRate - UsualRate), 0, 1)
            : 0;

    /// <summary>Draws a probability towards what is known without any record, all the way at the limit.</summary>
    /// <param name="probability">Probability by the features.</param>
    /// <param name="prior">Probability before any record, 0 to 1.</param>
    /// <param name="novelty">Share of the features outside.</param>
    public static double Temper(double probability, double prior, double novelty) =>
        probability + ((prior - probability) * Math.Clamp((novelty - Usual) / (Limit - Usual), 0, 1));
}
