using System.Collections.Concurrent;
using Clackbeat.Records.Samples;
using Clackbeat.Records.Sources;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Analysis;

/// <summary>The one way from a record to its analysis: what the source lacks and what was noted at the ram go with the figures.</summary>
public static class RecordAnalysis
{
    private const int ChunkSamples = 8192;

    // Chunks read ahead of what is taken: 2 MB.
    private const int MostWaiting = 16;

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

    /// <summary>
    /// Hands out a record's times [s] and gauge pressures [Pa] in chunks, in order. Reading a table takes about as long as what is done with
    /// its samples, so the two run side by side: the record is read on the thread of the caller, and <paramref name="take"/> runs on another.
    /// </summary>
    public static void Read(
        ISampleSource source, Action<ReadOnlySpan<double>, ReadOnlySpan<double>> take, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        using var stopping = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        using var waiting = new BlockingCollection<Chunk>(MostWaiting);
        var used = new ConcurrentBag<Chunk>();
        var taking = Task.Run(() => TakeAll(waiting, used, take, stopping), CancellationToken.None);
        try
        {
            var chunk = new Chunk();
            source.Read(samples =>
            {
                foreach (ref readonly Sample sample in samples)
                {
                    if (chunk.Add(sample))
                    {
                        waiting.Add(chunk, stopping.Token);
                        chunk = used.TryTake(out Chunk? free) ? free : new Chunk();
                    }
                }
            }, progress, cancellation);
            waiting.Add(chunk, stopping.Token);
        }
        catch (OperationCanceledException) when (!cancellation.IsCancellationRequested)
        {
            // What failed is the taking; it tells below.
        }
        finally
        {
            waiting.CompleteAdding();
            Task.WaitAny([taking], CancellationToken.None);
        }

        taking.GetAwaiter().GetResult();
    }

    private static void TakeAll(
        BlockingCollection<Chunk> waiting, ConcurrentBag<Chunk> used, Action<ReadOnlySpan<double>, ReadOnlySpan<double>> take, CancellationTokenSource stopping)
    {
        try
        {
            foreach (Chunk chunk in waiting.GetConsumingEnumerable())
            {
                chunk.HandTo(take);
                used.Add(chunk);
            }
        }
        catch
        {
            // Nothing takes any more, so the reader must not wait for room.
            stopping.Cancel();
            throw;
        }
    }

    private static InputSummary WithFaults(InputSummary input, SourceFaults faults)
    {
        if (!faults.IsPartial)
        {
            return input;
        }

        return input with { PartlyUnusable = true, SourceLosses = faults.Lacks };
    }

    private sealed class Chunk
    {
        private readonly double[] _timesS = new double[ChunkSamples];
        private readonly double[] _pressuresPa = new double[ChunkSamples];
        private int _count;

        /// <summary>Adds a sample; true when the chunk is full.</summary>
        public bool Add(in Sample sample)
        {
            (_timesS[_count], _pressuresPa[_count]) = (sample.TimeS, sample.PressurePa);
            return ++_count == ChunkSamples;
        }

        /// <summary>Hands all samples out and is empty again.</summary>
        public void HandTo(Action<ReadOnlySpan<double>, ReadOnlySpan<double>> take)
        {
            take(_timesS.AsSpan(0, _count), _pressuresPa.AsSpan(0, _count));
            _count = 0;
        }
    }
}
