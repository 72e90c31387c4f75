namespace Clackbeat.Signal.Diagnosis;

/// <summary>From which probability on a finding is told in which way. Report, screen and live page take these from here and nowhere else.</summary>
public static class FindingRules
{
    /// <summary>From here on a finding is almost certain. Where one word ends and the next begins is our own choice.</summary>
    public const double Sure = 0.9;

    /// <summary>From here on a finding is probable.</summary>
    public const double Likely = 0.65;

    /// <summary>From here on a finding is possible; below, it can't be ruled out.</summary>
    public const double Possible = 0.35;

    /// <summary>Below this a finding can't be ruled out, but is no reason to open a valve.</summary>
    public const double LeastWorthChecking = 0.25;

    /// <summary>A fault half as likely as the first finding is no fault found, but no all-clear either.</summary>
    public const double LeastRival = 0.5;

    /// <summary>A fault that stands so near the first finding that this one is in doubt; null where none does.</summary>
    /// <param name="findings">The likeliest first.</param>
    public static Finding? Rival(IReadOnlyList<Finding> findings)
    {
        ArgumentNullException.ThrowIfNull(findings);
        return findings.FirstOrDefault(f => f.Condition != Conditions.Healthy && f.Probability > LeastRival * findings[0].Probability);
    }

    /// <summary>The likeliest finding is that the ram is well.</summary>
    /// <param name="findings">The likeliest first.</param>
    public static bool IsWell(IReadOnlyList<Finding> findings) => findings is [{ Condition: Conditions.Healthy }, ..];
}
