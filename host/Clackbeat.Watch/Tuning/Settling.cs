using Clackbeat.Watch.Live;

namespace Clackbeat.Watch.Tuning;

/// <summary>
/// Watches whether a ram has settled after a change: its intervals and its peaks of the newest stretch against those of the
/// stretch before. They may differ by a hundredth, or by what their own scatter explains (two standard errors of the
/// difference of two means).
/// </summary>
internal sealed class Settling(TuningPace pace, double leastS)
{
    private const double Alike = 0.01;
    private const double Errors = 2;
    private const int LeastBeats = 5;

    // The beat that goes on and the one before it are not known yet.
    private const int Unknown = 2;

    private readonly List<(double ClosureS, double IntervalS, double PeakPa)> _beats = [];
    private double _beatsSinceS = double.NaN;

    /// <summary>How long it has been beating without a stop [s]; 0 while it stands.</summary>
    public double BeatingS { get; private set; }

    /// <summary>How long it has to beat at least [s].</summary>
    public double NeedsS { get; } = Math.Max(leastS, 2 * pace.CompareS);

    /// <summary>It has.</summary>
    public bool IsSettled { get; private set; }

    /// <summary>Looks at the newest beats.</summary>
    public void Look(LiveView view)
    {
        if (view.State != LiveState.Beating || view.LastClosureS is null)
        {
            _beats.Clear();
            (_beatsSinceS, BeatingS, IsSettled) = (double.NaN, 0, false);
            return;
        }

        if (double.IsNaN(_beatsSinceS))
        {
            _beatsSinceS = view.NewestS;
        }

        _beats.AddRange(view.Beats.Where(b => b.ClosureS >= _beatsSinceS).Select(b => (b.ClosureS, b.IntervalS, b.PeakPa)));
        // A slow ram needs longer for its beats to tell.
        double compareS = Math.Max(pace.CompareS, (LeastBeats + Unknown) * _beats.Select(b => b.IntervalS).DefaultIfEmpty(0).Average());
        _beats.RemoveAll(b => b.ClosureS < view.NewestS - (2 * compareS));
        BeatingS = view.NewestS - _beatsSinceS;
        IsSettled = BeatingS >= NeedsS && IsSteady(view.NewestS - compareS);
    }

    private bool IsSteady(double middleS)
    {
        (double ClosureS, double IntervalS, double PeakPa)[] before = [.. _beats.Where(b => b.ClosureS < middleS)];
        (double ClosureS, double IntervalS, double PeakPa)[] after = [.. _beats.Where(b => b.ClosureS >= middleS)];
        return before.Length >= LeastBeats && after.Length >= LeastBeats
            && AreAlike([.. before.Select(b => b.IntervalS)], [.. after.Select(b => b.IntervalS)])
            && AreAlike([.. before.Select(b => b.PeakPa)], [.. after.Select(b => b.PeakPa)]);
    }

    private static bool AreAlike(double[] before, double[] after)
    {
        (double first, double second) = (before.Average(), after.Average());
        double error = Math.Sqrt(Variance(before, first) / before.Length + (Variance(after, second) / after.Length));
        return Math.Abs(second - first) <= Math.Max(Alike * Math.Abs(first), Errors * error);
    }

    private static double Variance(double[] values, double mean) => values.Sum(v => (v - mean) * (v - mean)) / (values.Length - 1);
}
