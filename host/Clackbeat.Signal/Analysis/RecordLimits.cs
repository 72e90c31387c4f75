using Clackbeat.Signal.Beats;
using Clackbeat.Signal.States;
using Clackbeat.Site.Check;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Signal.Analysis;

/// <summary>What the record and the site file can't carry.</summary>
internal sealed class RecordLimits(
    RamSite site, SiteHydraulics hydraulics, RecordTally tally, IReadOnlyList<Beat> beats, long impossible, Fact? doubt, ZeroCheck zero)
{
    /// <summary>The limits; none when nothing is weak.</summary>
    public IReadOnlyList<Fact> All() => [.. OfRecord().Concat(OfSite()).OfType<Fact>()];

    private IEnumerable<Fact?> OfRecord()
    {
        yield return ZeroFacts.Limit(zero);
        yield return zero.IsWrong ? null : doubt;
        yield return tally.ClippedHigh > 0 ? Fact.Of("clipped-high", ("samples", tally.ClippedHigh)) : null;
        yield return tally.ClippedLow > tally.Count / 1000 ? Fact.Of("clipped-low", ("samples", tally.ClippedLow)) : null;
        yield return SamplingLimit();
        yield return tally.Gaps.Count > 0
            ? Fact.Of(
                "samples-missing",
                ("gaps", tally.Gaps.Count), ("missing_s", tally.Gaps.Sum(g => g.LengthS)), ("beats", beats.Count(b => b.HasGap)))
            : null;
        yield return impossible > 0 ? Fact.Of("values-left-out", ("values", impossible)) : null;
        yield return beats.Count == 1 ? Fact.Of("one-beat") : null;
        yield return beats.Count is > 1 and < 10 ? Fact.Of("few-beats", ("beats", beats.Count)) : null;
    }

    private IEnumerable<Fact?> OfSite()
    {
        yield return site.Sensor is { AccuracyShareOfSpan: null, Calibration: null } ? Fact.Of("sensor-accuracy-unstated") : null;
        yield return beats.Count > 0 && SiteLoad.ResponseOf(site.Sensor) is null ? Fact.Of("sensor-response-unstated") : null;
        yield return hydraulics.WaveSpeedSource switch
        {
            WaveSpeedSource.WallAssumed => Fact.Of("wall-unstated"),
            WaveSpeedSource.Assumed => Fact.Of("wave-speed-unstated", ("wave_speed_m_per_s", hydraulics.WaveSpeedMPerS)),
            _ => null,
        };
    }

    private Fact? SamplingLimit()
    {
        if (beats.Count == 0)
        {
            return null;
        }

        // A spike that only one or two samples touch has lost its top somewhere between them.
        double widening = Summaries.Median(beats, b => b.PeakUncertaintyPa / b.PeakPa);
        return widening > 0.05
            ? Fact.Of("peak-between-samples", ("sample_rate_hz", tally.RateHz), ("peak_above_share", 2 * widening))
            : null;
    }
}
