using Clackbeat.Records.Samples;
using Clackbeat.Site.Facts;

namespace Clackbeat.Records.Sources;

/// <summary>A source of absolute pressures, read as gauge: the pressure of the air is taken off.</summary>
/// <param name="absolute">The source.</param>
/// <param name="atmospherePa">Pressure of the air at the ram [Pa absolute].</param>
public sealed class GaugeSource(ISampleSource absolute, double atmospherePa) : ISampleSource
{
    /// <inheritdoc/>
    public string Name => absolute.Name;

    /// <inheritdoc/>
    public SampleColumns Columns => absolute.Columns;

    /// <inheritdoc/>
    public RecordStart? Start => absolute.Start;

    /// <inheritdoc/>
    public Fact? StartRemark => absolute.StartRemark;

    /// <inheritdoc/>
    public string? Identity => absolute.Identity;

    /// <inheritdoc/>
    public IReadOnlyList<RecordMark> Marks => absolute.Marks;

    /// <inheritdoc/>
    public SourceFaults Faults => absolute.Faults;

    /// <inheritdoc/>
    public void Read(SampleTaker take, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        Sample[] batch = [];
        absolute.Read(samples =>
        {
            batch = batch.Length < samples.Length ? new Sample[samples.Length] : batch;
            for (int i = 0; i < samples.Length; i++)
            {
                batch[i] = samples[i] with { PressurePa = samples[i].PressurePa - atmospherePa };
            }

            take(batch.AsSpan(0, samples.Length));
        }, progress, cancellation);
    }
}
