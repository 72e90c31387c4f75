using Clackbeat.Recording.Export;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;
using Clackbeat.Season.Store;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site;
using Clackbeat.Site.Model;

namespace Clackbeat.Unattended.Bursts;

/// <summary>From a recording on the disk to what the season store keeps of it.</summary>
public static class RecordedBurst
{
    /// <summary>Sums the bursts of a recording up; usually one, more where samples were missing for long.</summary>
    /// <param name="path">The recording.</param>
    /// <param name="source">What the store shall call it.</param>
    /// <param name="site">The ram.</param>
    /// <param name="known">Tells by its hash that a burst is stored already; such a one is not analysed again.</param>
    /// <param name="startUtc">When the burst began, where the recording's own calendar was wrong; left out: as it says.</param>
    /// <param name="stop">Ends the work early.</param>
    /// <returns>New bursts, oldest first; none when all are known, or too short to tell anything.</returns>
    /// <exception cref="InputException">The file is no recording.</exception>
    public static IReadOnlyList<SeasonBurst> Read(
        string path, string source, RamSite site, Func<byte[], bool> known, DateTimeOffset? startUtc = null, CancellationToken stop = default)
    {
        if (!BlockReader.IsRecording(path))
        {
            throw new InputException($"{path} is no recording.");
        }

        RecordingScan scan = RecordingScan.Of(path, stop: stop);
        var bursts = new List<SeasonBurst>();
        if (scan.Samples == 0)
        {
            return bursts;
        }

        IReadOnlyList<string> lacks = RecordingWords.Of(scan);
        SensorConversion conversion = SiteSensing.ConversionOf(site);
        var cutter = new BurstCutter(source, startUtc, cut =>
        {
            // What a crash left of a burst that had hardly begun tells nothing, and is no damage either.
            if (cut.DurationS >= RamAnalyser.ShortestRecordS && !known(cut.Hash))
            {
                RamAnalysis analysis = cut.Analyse(site, source);
                bursts.Add(BurstSummariser.Of(site, WithLacks(analysis, lacks), cut.StartUtc, cut.Hash));
            }
        });
        SamplePass.Read(scan, samples =>
        {
            foreach (RecordedSample s in samples)
            {
                cutter.Take(new ExportRow(
                    s.TimeS, conversion.PressurePaAt(s.Counts, s.SupplyCounts), s.UtcMicroseconds, s.Counts, s.SupplyCounts, s.DeliveryCounts));
            }
        }, stop: stop);
        cutter.Finish();
        return bursts;
    }

    private static RamAnalysis WithLacks(RamAnalysis analysis, IReadOnlyList<string> lacks)
    {
        if (lacks.Count == 0)
        {
            return analysis;
        }

        IEnumerable<string> all = analysis.Input.PartlyUnusable ? lacks.Append(analysis.Input.Completeness) : lacks;
        return analysis with { Input = analysis.Input with { PartlyUnusable = true, Completeness = string.Join("; ", all) } };
    }
}
