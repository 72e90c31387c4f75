using Clackbeat.Records.Samples;
using Clackbeat.Records.Sources;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Analysis;

/// <summary>The one way from a record to its analysis: what the source lacks and what was noted at the ram go with the figures.</summary>
public static class RecordAnalysis
{
    private const int ChunkSamples = 8192;

    /// <summary>Analyses a record.</summary>
    /// <param name="source">The record; read to its end.</param>
    /// <param name="site">The ram.</param>
    /// <param name="well">The same ram when it was well, to judge changes by; null without such a record.</param>
    /// <param name="earlier">Recordings between that one and this, oldest first.</param>
    /// <param name="progress">Receives the share done, 0 to 1.</param>
    /// <param name="cancellation">Ends the work early.</param>
    /// <exception cref="Site.InputException">Nothing in the record can be used.</exception>
    public static RamAnalysis Of(
        ISampleSource source,
        RamSite site,
        Signature? well = null,
        IReadOnlyList<EarlierRecord>? earlier = null,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        if (source.Marks.Count > 0 && site.FlowScale is { } scale)
        {
            // Whoever noted something in the record was at the ram after the test: the setting may be another now.
            site = site with { FlowScale = scale with { IsMarkedSince = true } };
        }

        var analyser = new RamAnalyser(site, well, earlier);
        Read(source, analyser.Add, progress, cancellation);
        SourceFaults faults = source.Faults;
        RamAnalysis analysis = analyser.Finish(source.Name, faults.SkippedRows, source.Board);
        return analysis with { Input = WithFaults(analysis.Input, faults) with { Marks = source.Marks } };
    }

    /// <summary>Hands out a record's times [s] and gauge pressures [Pa] in chunks.</summary>
    public static void Read(
        ISampleSource source, Action<ReadOnlySpan<double>, ReadOnlySpan<double>> take, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        double[] timesS = new double[ChunkSamples];
        double[] pressuresPa = new double[ChunkSamples];
        int count = 0;
        source.Read(samples =>
        {
            foreach (ref readonly Sample sample in samples)
            {
                (timesS[count], pressuresPa[count]) = (sample.TimeS, sample.PressurePa);
                if (++count == ChunkSamples)
                {
                    take(timesS, pressuresPa);
                    count = 0;
                }
            }
        }, progress, cancellation);
        take(timesS.AsSpan(0, count), pressuresPa.AsSpan(0, count));
    }

    private static InputSummary WithFaults(InputSummary input, SourceFaults faults)
    {
        if (!faults.IsPartial)
        {
            return input;
        }

        return input with { PartlyUnusable = true, SourceLosses = faults.Lacks };
    }
}
