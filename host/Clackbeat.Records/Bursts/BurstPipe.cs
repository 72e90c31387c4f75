using System.Threading.Channels;
using Clackbeat.Records.Samples;
using Clackbeat.Records.Sources;

namespace Clackbeat.Records.Bursts;

/// <summary>
/// One burst of a source as a record of its own, whose time begins with its first sample. Samples come through a bounded pipe
/// while the source is read, so a burst is analysed beside the next one's reading and memory has an end.
/// </summary>
internal sealed class BurstPipe(ISampleSource source, CutBurst cut) : ISampleSource
{
    // Four minutes at 1000 samples a second fit whole; of a longer burst the reading waits for the analysis.
    private const int MostBatches = 64;
    private const int BatchSamples = 4096;

    private readonly Channel<Sample[]> _batches = Channel.CreateBounded<Sample[]>(
        new BoundedChannelOptions(MostBatches) { SingleReader = true, SingleWriter = true });

    private readonly List<Sample> _batch = new(BatchSamples);

    public string Name => source.Name;

    public SampleColumns Columns => source.Columns;

    public RecordStart? Start => cut.Start;

    public string? Identity => source.Identity;

    public IReadOnlyList<RecordMark> Marks =>
    [
        .. source.Marks
            .Where(m => m.TimeS >= cut.FirstS && m.TimeS <= cut.FirstS + cut.DurationS)
            .Select(m => m with { TimeS = m.TimeS - cut.FirstS }),
    ];

    // How many rows were skipped is known of the whole table alone; whoever reads it says so.
    public SourceFaults Faults => source.Faults with { SkippedRows = 0 };

    public void Read(SampleTaker take, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        try
        {
            while (Wait(_batches.Reader.WaitToReadAsync(cancellation)))
            {
                while (_batches.Reader.TryRead(out Sample[]? batch))
                {
                    take(batch);
                }
            }
        }
        finally
        {
            // Where this failed nobody takes what follows, and the reading of the source must not wait for it.
            _batches.Writer.TryComplete();
        }
    }

    /// <summary>Sends a sample down the pipe.</summary>
    public void Add(in Sample sample)
    {
        _batch.Add(sample with { TimeS = sample.TimeS - cut.FirstS });
        if (_batch.Count == BatchSamples)
        {
            Send();
        }
    }

    /// <summary>The burst is whole.</summary>
    public void Complete()
    {
        Send();
        _batches.Writer.TryComplete();
    }

    /// <summary>The rest of the burst can't be read: its analysis fails rather than takes a part for the whole.</summary>
    public void Break() => _batches.Writer.TryComplete(new IOException($"{source.Name} could not be read to its end."));

    private void Send()
    {
        Sample[] batch = [.. _batch];
        _batch.Clear();
        while (!_batches.Writer.TryWrite(batch) && Wait(_batches.Writer.WaitToWriteAsync()))
        {
        }
    }

    private static bool Wait(ValueTask<bool> ready) => ready.IsCompleted ? ready.Result : ready.AsTask().GetAwaiter().GetResult();
}
