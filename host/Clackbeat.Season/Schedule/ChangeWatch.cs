using Clackbeat.Season.Store;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Beats;
using Clackbeat.Site;
using Clackbeat.Site.Model;

namespace Clackbeat.Season.Schedule;

/// <summary>What changed between two bursts.</summary>
public enum RamChange
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
        SiteHydraulics hydraulics = SiteHydraulics.Of(site);
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
    public RamChange? Add(double timeS, double pressurePa)
    {
        if (_last is null)
        {
            return null;
        }

        // Samples are missing, or the logger started anew: what came before says nothing of what comes.
        if (_fromS is not null && (timeS <= _atS || timeS - _atS > LongestStepS))
        {
            Restart();
        }

        _fromS ??= timeS;
        _atS = timeS;
        _detector.Add(timeS, pressurePa);
        RamChange? change = Judge();
        if (change is not null)
        {
            _last = null;
        }

        return change;
    }

    private RamChange? Judge()
    {
        if (_last!.State != RamState.Beating)
        {
            return _beats.Count >= ABatch ? RamChange.Started : null;
        }

        double quietS = _atS - Math.Max(_detector.LastClosureS ?? _fromS!.Value, _fromS!.Value);
        double longestS = Math.Max(BeatDetector.LongestLullS, 3 * (_rate?.Middle ?? 0));
        if (quietS > longestS)
        {
            return RamChange.Stopped;
        }

        return _beats.Count < ABatch ? null : Compare();
    }

    private RamChange? Compare()
    {
        bool rate = IsAgain(_rate, _beats.Select(b => b.IntervalS), ref _rateSide);
        bool peak = IsAgain(_peak, _beats.Select(b => b.PeakPa), ref _peakSide);
        _beats.Clear();
        return rate ? RamChange.Rate : peak ? RamChange.Peak : null;
    }

    // True when this median lies beyond the limit on the side on which the one before it lay.
    private static bool IsAgain((double Middle, double Limit)? usual, IEnumerable<double> values, ref int side)
    {
        if (usual is not var (middle, limit))
        {
            return false;
        }

        double difference = Median([.. values]) - middle;
        int now = Math.Abs(difference) > limit ? Math.Sign(difference) : 0;
        (bool again, side) = (now != 0 && now == side, now);
        return again;
    }

    private static (double Middle, double Limit) Around(double[] values, double share)
    {
        double middle = Median(values);

        // 1.4826 turns a median absolute deviation into a standard deviation, and the median of n scatters by 1.2533 σ/√n:
        // both for a normal distribution (Huber and Ronchetti, Robust Statistics, 2nd ed., 2009, §1.2 and §5.1).
        double deviation = 1.4826 * Median([.. values.Select(v => Math.Abs(v - middle))]);
        return (middle, Math.Max(share * middle, Deviations * 1.2533 * deviation / Math.Sqrt(ABatch)));
    }

    private static double Median(double[] values)
    {
        Array.Sort(values);
        int half = values.Length / 2;
        return values.Length % 2 == 1 ? values[half] : 0.5 * (values[half - 1] + values[half]);
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
