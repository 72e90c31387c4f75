using Clackbeat.Records.Samples;

namespace Clackbeat.Records.Export;

/// <summary>Writes samples to a file and marks where some are missing, by the rules that analyses use.</summary>
public sealed class ExportRows(IExportFile file)
{
    private readonly StepLearner _step = new();
    private double _lastS = double.NaN;

    /// <summary>Stretches without samples.</summary>
    public int Gaps { get; private set; }

    /// <summary>Rows written.</summary>
    public long Rows { get; private set; }

    /// <summary>Takes the next samples.</summary>
    public void Add(ReadOnlySpan<Sample> samples)
    {
        foreach (ref readonly Sample sample in samples)
        {
            if (_step.IsKnown)
            {
                Write(sample);
            }
            else
            {
                Write(_step.Add(sample) ?? []);
            }
        }
    }

    /// <summary>Writes what is left.</summary>
    public void Finish()
    {
        Write(_step.Finish());
        file.Finish();
    }

    private void Write(IReadOnlyList<Sample> samples)
    {
        foreach (Sample sample in samples)
        {
            Write(sample);
        }
    }

    private void Write(in Sample sample)
    {
        double stepS = sample.TimeS - _lastS;
        bool gap = GapRule.IsGap(stepS, _step.StepS);
        Gaps += gap ? 1 : 0;
        Rows++;
        file.Add(sample, gap ? Math.Round(stepS, 6) : null);
        _lastS = sample.TimeS;
    }
}
