using Clackbeat.Tuning.Trials;

namespace Clackbeat.Tuning.Search;

/// <summary>
/// What a twin expects of a figure over the range: a curve, and the ways in which its unsure parameters bend that curve. Trials
/// then shift it, bend it along these ways, and show what the twin misses besides.
/// </summary>
/// <param name="shares">Places, as shares of the range, in order.</param>
/// <param name="curve">Expected logarithm of the figure at each, up to a constant.</param>
/// <param name="ways">Curves of the parameters one standard deviation away, less the expected one.</param>
public sealed class PriorCurve(IReadOnlyList<double> shares, IReadOnlyList<double> curve, IReadOnlyList<double[]> ways)
{
    // Where the twin stands nothing is delivered; a finite fall keeps the curve a curve.
    private const double Standing = -1.5;

    /// <summary>The expected logarithm, up to a constant.</summary>
    /// <param name="share">Place.</param>
    public double At(double share) => Between(curve, share);

    /// <summary>Covariance of what the twin's parameters leave unsure at two places.</summary>
    public double Covariance(double a, double b) => ways.Sum(w => Between(w, a) * Between(w, b));

    /// <summary>The prior of a figure; null without a twin.</summary>
    /// <param name="session">The session.</param>
    /// <param name="figure">The figure.</param>
    public static PriorCurve? Of(TuningSession session, Func<LogRatios, double> figure)
    {
        ArgumentNullException.ThrowIfNull(session);
        if (session.Twin is not { } twin || !twin.Points.Any(p => p.Twin is not null))
        {
            return null;
        }

        int ways = twin.Points.Max(p => p.Others.Count);
        return new PriorCurve(
            [.. twin.Points.Select(p => session.Knob.Share(p.Setting))],
            [.. twin.Points.Select(p => p.Twin is { } t ? figure(t) : Standing)],
            [.. Enumerable.Range(0, ways).Select(w => twin.Points.Select(p => p.Twin is { } t ? figure(p.Others[w]) - figure(t) : 0).ToArray())]);
    }

    /// <summary>The same of what a session aims at.</summary>
    public static PriorCurve? OfAim(TuningSession session)
    {
        ArgumentNullException.ThrowIfNull(session);
        return Of(session, session.Aim switch
        {
            TuningAim.MostDelivered => r => r.Delivered,
            TuningAim.LeastWasted => r => r.Efficiency,
            _ => r => -r.Peak,
        });
    }

    private double Between(IReadOnlyList<double> values, double share)
    {
        int i = 0;
        while (i < shares.Count - 2 && shares[i + 1] < share)
        {
            i++;
        }

        double part = Math.Clamp((share - shares[i]) / (shares[i + 1] - shares[i]), 0, 1);
        return values[i] + (part * (values[i + 1] - values[i]));
    }
}
