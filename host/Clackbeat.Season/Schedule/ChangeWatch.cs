using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.States;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Season.Schedule;

/// <summary>What changed between two bursts.</summary>
public enum BeatChange
{
    /// <summary>It beat and stopped.</summary>
    Stopped,

    /// <summary>It stood and beats.</summary>
    Started,

    /// <summary>Its rate moved.</summary>
    Rate,

    /// <summary>Its peak moved.</summary>
    Peak,
}

/// <summary>How much must change between bursts to be worth one more.</summary>
/// <param name="RateShare">Change of the rate, as a share of the last burst's.</param>
/// <param name="PeakShare">Change of the median peak, likewise.</param>
public readonly record struct ChangeLimits(double RateShare, double PeakShare);

/// <summary>
/// A light look at the running ram between bursts: only closures, intervals and peaks, no flow and no diagnosis. It is compared
/// with the last burst. A change counts when two medians in a row, of <see cref="ABatch"/> beats each, lie beyond the limit
/// on the same side; where the last burst scattered widely the limit is widened to six standard deviations of such a median.
/// Memory is that of the beat detector, a minute of samples.
/// </summary>
public sealed class ChangeWatch
{
    /// <summary>Beats to one median.</summary>
    public const int ABatch = 10;

    private const double LongestStepS = 2;
    private const double Deviations = 6;

    private readonly RamScale _scale;
    private readonly ChangeLimits _limits;
    private readonly List<Beat> _beats = [];
    private BeatDetector _detector;
    private SeasonBurst? _last;
    private (double Middle, double Limit)? _rate;
    private (double Middle, double Limit)? _peak;
    private double? _fromS;
    private double _atS;
    private int _rateSide;
    private int _peakSide;

    /// <summary>Makes a watch; it tells nothing before <see cref="Expect"/>.</summary>
    /// <param name="site">The ram.</param>
    /// <param name="limits">What counts.</param>
    public ChangeWatch(RamSite site, ChangeLimits limits)
    {
        var hydraulics = SiteHydraulics.Of(site);
        _scale = new RamScale(
            hydraulics.PressurePa(site.Supply.HeadM), hydraulics.PressurePa(site.Delivery.HeadM), hydraulics.PipePeriodS);
        _limits = limits;
        _detector = new BeatDetector(_scale, TakeBeat);
    }

    /// <summary>Says what the ram did in its last burst.</summary>
    /// <param name="burst">The burst.</param>
    public void Expect(SeasonBurst burst)
    {
        _last = burst;
        double[] intervals = [.. burst.Beats.Select(b => b.IntervalS)];
        double[] peaks = [.. burst.Beats.Select(b => b.PeakPa)];
        _rate = intervals.Length >= ABatch ? Around(intervals, _limits.RateShare) : null;
        _peak = peaks.Length >= ABatch ? Around(peaks, _limits.PeakShare) : null;
        Restart();
    }

    /// <summary>Takes a sample; tells of a change once, then waits for the burst that follows from it.</summary>
    /// <param name="timeS">Time on the logger's clock [s].</param>
    /// <param name="pressurePa">Gauge pressure [Pa].</param>
    public BeatChange? Add(double timeS, double pressurePa)
    {
        if (_last is null)
        {
            return null;
        }

        // Samples are missing, or the logger restarted: what came before says nothing of what comes.
        if (_fromS is not null && (timeS <= _atS || timeS - _atS > LongestStepS))
        {
            Restart();
        }

        _fromS ??= timeS;
        _atS = timeS;
        _detector.Add(timeS, pressurePa);
        BeatChange? change = Judge();
        if (change is not null)
        {
            _last = null;
        }

        return change;
    }

    private BeatChange? Judge()
    {
        if (_last!.State != RamState.Beating)
        {
            return _beats.Count >= ABatch ? BeatChange.Started : null;
        }

        double quietS = _atS - Math.Max(_detector.LastClosureS ?? _fromS!.Value, _fromS!.Value);
        double longestS = Math.Max(BeatDetector.LongestLullS, 3 * (_rate?.Middle ?? 0));
        if (quietS > longestS)
        {
            return BeatChange.Stopped;
        }

        return _beats.Count < ABatch ? null : Compare();
    }

    private BeatChange? Compare()
    {
        bool rate = IsAgain(_rate, _beats.Select(b => b.IntervalS), ref _rateSide);
        bool peak = IsAgain(_peak, _beats.Select(b => b.PeakPa), ref _peakSide);
        _beats.Clear();
        return rate ? BeatChange.Rate : peak ? BeatChange.Peak : null;
    }

    // True when this median lies beyond the limit on the side on which the one before it lay.
    private static bool IsAgain((double Middle, double Limit)? usual, IEnumerable<double> values, ref int side)
    {
        if (usual is not var (middle, limit))
        {
            return false;
        }

        double difference = Robust.Median(values) - middle;
        int now = Math.Abs(difference) > limit ? Math.Sign(difference) : 0;
        (bool again, side) = (now != 0 && now == side, now);
        return again;
    }

    private static (double Middle, double Limit) Around(double[] values, double share)
    {
        double middle = Robust.Median(values);

        // The median of n scatters by 1.2533 σ/√n for a normal distribution (Huber and Ronchetti, Robust Statistics, 2nd ed., 2009, §5.1).
        return (middle, Math.Max(share * middle, Deviations * 1.2533 * Robust.Deviation(values) / Math.Sqrt(ABatch)));
    }

    private void TakeBeat(BeatWindow window)
    {
        if (!window.Beat.HasGap)
        {
            _beats.Add(window.Beat);
        }
    }

    private void Restart()
    {
        _detector = new BeatDetector(_scale, TakeBeat);
        _beats.Clear();
        (_fromS, _rateSide, _peakSide) = (null, 0, 0);
    }
}
