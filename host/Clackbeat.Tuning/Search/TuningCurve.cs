using Clackbeat.Tuning.Trials;

namespace Clackbeat.Tuning.Search;

/// <summary>The curve through a figure of the trials, for a picture.</summary>
/// <param name="Setting">Setting, in the knob's unit.</param>
/// <param name="Value">The figure.</param>
/// <param name="Low">Lower end of its ± (k = 2), as between trials of one session.</param>
/// <param name="High">Upper end.</param>
public readonly record struct CurvePoint(double Setting, double Value, double Low, double High);

/// <summary>Draws a smooth curve through trials.</summary>
public static class TuningCurve
{
    private const int Points = 81;

    /// <summary>
    /// The curve between the outermost working trials; empty with fewer than three. With a twin it runs over the whole range, from the
    /// first trial on.
    /// </summary>
    /// <param name="session">The session.</param>
    /// <param name="whole">The figure of a trial; positive.</param>
    /// <param name="part">The same of a stretch.</param>
    /// <param name="told">The same of what a twin tells, as a logarithm.</param>
    public static IReadOnlyList<CurvePoint> Of(
        TuningSession session, Func<Trial, double> whole, Func<Stretch, double> part, Func<LogRatios, double> told)
    {
        ArgumentNullException.ThrowIfNull(session);
        Trial[] working = [.. session.Working];
        var prior = PriorCurve.Of(session, told);
        if (working.Length < 3 && (prior is null || working.Length == 0))
        {
            return [];
        }

        Knob knob = session.Knob;
        GaussianProcess curve = Through(knob, working, t => Math.Log(whole(t)), s => Math.Log(part(s)), prior);
        double from = prior is null ? working.Min(t => t.Setting) : knob.Lowest;
        double to = prior is null ? working.Max(t => t.Setting) : knob.Highest;
        return [.. Enumerable.Range(0, Points).Select(i =>
        {
            double setting = from + ((to - from) * i / (Points - 1));
            (double mean, double deviation) = curve.At(knob.Share(setting));
            return new CurvePoint(setting, Math.Exp(mean), Math.Exp(mean - (2 * deviation)), Math.Exp(mean + (2 * deviation)));
        })];
    }

    /// <summary>The curve through a figure of working trials over the share of the knob's range.</summary>
    /// <param name="knob">What is turned.</param>
    /// <param name="working">The trials, at least one.</param>
    /// <param name="whole">The figure of a trial.</param>
    /// <param name="part">The same of a stretch.</param>
    /// <param name="prior">What a twin expects of it; null without.</param>
    internal static GaussianProcess Through(
        Knob knob, Trial[] working, Func<Trial, double> whole, Func<Stretch, double> part, PriorCurve? prior)
    {
        var repeats = Repeatability.Of(working, part);
        return GaussianProcess.Fit(
            [.. working.Select(t => knob.Share(t.Setting))], [.. working.Select(whole)], [.. working.Select(repeats.Between)], prior);
    }
}
