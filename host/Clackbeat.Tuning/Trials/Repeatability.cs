namespace Clackbeat.Tuning.Trials;

/// <summary>
/// How well a figure repeats within trials: the stretches of each trial about their own mean, pooled over the session
/// (the within-group variance of a one-way analysis of variance, NIST/SEMATECH e-Handbook of Statistical Methods, 7.4.3).
/// </summary>
/// <param name="StretchDeviation">Standard deviation of one stretch.</param>
/// <param name="Freedom">Degrees of freedom behind it; 0 when no trial had two stretches.</param>
public readonly record struct Repeatability(double StretchDeviation, int Freedom)
{
    // Where nothing was repeated yet: what a minute's flow of one ram, found again, scatters by (docs/tuning.md).
    private const double Unknown = 0.03;

    // What a flow's own error may differ by between two settings, beyond its scatter: about a tenth of its usual ±, a guess.
    private const double BetweenSettings = 0.01;

    // The same where a twin expects a curve to hold it against: measured on the rams that chose (docs/tuning.md).
    private const double BesideTwin = 0.03;

    /// <summary>Pools a session's trials.</summary>
    /// <param name="trials">The trials.</param>
    /// <param name="figure">The figure of a stretch.</param>
    public static Repeatability Of(IEnumerable<Trial> trials, Func<Stretch, double> figure)
    {
        ArgumentNullException.ThrowIfNull(trials);
        (double squares, int freedom) = (0, 0);
        foreach (Trial trial in trials)
        {
            double[] values = [.. trial.Stretches.Select(figure).Where(double.IsFinite)];
            if (values.Length < 2)
            {
                continue;
            }

            double mean = values.Average();
            squares += values.Sum(v => (v - mean) * (v - mean));
            freedom += values.Length - 1;
        }

        return freedom > 0 ? new Repeatability(Math.Sqrt(squares / freedom), freedom) : new Repeatability(Unknown, 0);
    }

    /// <summary>Standard uncertainty of a trial against trials at other settings, as a share.</summary>
    public double Between(Trial trial) => Math.Sqrt(Math.Pow(Of(trial), 2) + Math.Pow(trial.HasTwin ? BesideTwin : BetweenSettings, 2));

    /// <summary>Standard uncertainty of a trial's mean.</summary>
    public double Of(Trial trial) => StretchDeviation / Math.Sqrt(Math.Max(1, trial.Stretches.Count));
}
