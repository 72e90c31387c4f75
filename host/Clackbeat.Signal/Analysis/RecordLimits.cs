using System.Globalization;
using Clackbeat.Signal.Beats;
using Clackbeat.Site;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Analysis;

/// <summary>Says in sentences what the record and the site file can't carry.</summary>
internal sealed class RecordLimits(
    RamSite site, SiteHydraulics hydraulics, RecordTally tally, IReadOnlyList<Beat> beats, long impossible, string? doubt)
{
    /// <summary>The sentences; none when nothing is weak.</summary>
    public IReadOnlyList<string> Sentences()
    {
        var sentences = new List<string>();
        Add(sentences, doubt);
        Add(sentences, tally.ClippedHigh > 0
            ? Text($"{tally.ClippedHigh} samples stand at the top of the sensor's range: the true peaks are higher than shown. Fit a sensor with more range.")
            : null);
        Add(sentences, tally.ClippedLow > tally.Count / 1000
            ? "The sensor doesn't read below its zero, so suction and the pressure of the open phase can't be seen."
            : null);
        Add(sentences, SamplingLimit());
        Add(sentences, tally.Gaps.Count > 0
            ? Text($"Samples are missing in {tally.Gaps.Count} places, {tally.Gaps.Sum(g => g.LengthS):0.###} s in all; {beats.Count(b => b.HasGap)} beats have such a hole, and a peak may have fallen into it.")
            : null);
        Add(sentences, impossible > 0
            ? Text($"{impossible} values far outside the sensor's range were left out.")
            : null);
        Add(sentences, beats.Count is > 0 and < 10
            ? Text($"Only {beats.Count} whole beats were seen; record at least a minute for figures that hold.")
            : null);
        Add(sentences, site.Sensor.AccuracyShareOfSpan is null
            ? "The site file states no accuracy for the sensor; half a percent of its range is taken."
            : null);
        Add(sentences, beats.Count > 0 && SiteLoad.ResponseOf(site.Sensor) is null
            ? "The site file states no response time for the sensor; a millisecond is taken, and the true peak is given as uncertain as that leaves it."
            : null);
        Add(sentences, WaveSpeedLimit());
        return sentences;
    }

    private string? SamplingLimit()
    {
        if (beats.Count == 0)
        {
            return null;
        }

        // A spike that only one or two samples touch has lost its top somewhere between them.
        double widening = Summaries.Median(beats, b => b.PeakUncertaintyPa / b.PeakPa).Value;
        return widening > 0.05
            ? Text($"At {tally.RateHz:0} samples a second the spike after closure falls between the samples: the true peak may be {200 * widening:0} % above the largest sample.")
            : null;
    }

    private string? WaveSpeedLimit() => hydraulics.WaveSpeedSource switch
    {
        WaveSpeedSource.WallAssumed => "The site file gives no wall thickness; the wave speed was computed with a wall of a tenth of the bore.",
        WaveSpeedSource.Assumed => "The site file gives neither a known material nor a wave speed; a round 800 m/s was taken.",
        _ => null,
    };

    private static void Add(List<string> sentences, string? sentence)
    {
        if (sentence is not null)
        {
            sentences.Add(sentence);
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
