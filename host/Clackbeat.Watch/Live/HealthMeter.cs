using Clackbeat.Records.Samples;
using Clackbeat.Signal.Traces;
using Clackbeat.Site.Model;

namespace Clackbeat.Watch.Live;

/// <summary>Reads rate, gaps and clipping off the newest samples.</summary>
internal sealed class HealthMeter
{
    private const double WindowS = 60;
    private const double RateOverS = 5;

    private readonly double _clipPa;
    private readonly Queue<(double TimeS, double LengthS)> _gaps = new();
    private readonly Queue<double> _clips = new();
    private double _lastS = double.NaN;
    private double _stepS;

    /// <summary>Makes a meter.</summary>
    public HealthMeter(Sensor sensor) =>
        _clipPa = sensor.RangeHighPa - (0.0005 * (sensor.RangeHighPa - sensor.RangeLowPa));

    /// <summary>What the source has counted.</summary>
    public SourceCounts Counts { get; set; }

    /// <summary>Says what a usual step is [s].</summary>
    public void SetStep(double stepS) => _stepS = stepS;

    /// <summary>Takes the next sample.</summary>
    public void Add(double timeS, double pressurePa)
    {
        if (GapRule.IsGap(timeS - _lastS, _stepS))
        {
            _gaps.Enqueue((timeS, timeS - _lastS));
        }

        if (pressurePa >= _clipPa)
        {
            _clips.Enqueue(timeS);
        }

        _lastS = timeS;
        while (_gaps.TryPeek(out (double TimeS, double LengthS) gap) && gap.TimeS < timeS - WindowS)
        {
            _gaps.Dequeue();
        }

        while (_clips.TryPeek(out double clipS) && clipS < timeS - WindowS)
        {
            _clips.Dequeue();
        }
    }

    /// <summary>The newest reading.</summary>
    public Health Read(SampleBuffer samples)
    {
        long from = samples.End > samples.First ? samples.FirstAtOrAfter(samples.TimeS(samples.End - 1) - RateOverS) : samples.End;
        double spanS = samples.End - from > 1 ? samples.TimeS(samples.End - 1) - samples.TimeS(from) : 0;
        double gapsS = _gaps.Where(g => spanS > 0 && g.TimeS > samples.TimeS(from)).Sum(g => g.LengthS);
        double? rateHz = spanS > gapsS ? (samples.End - from - 1) / (spanS - Math.Min(gapsS, 0.9 * spanS)) : null;
        return new Health(rateHz, Counts.LostSamples, Counts.SkippedSamples, Counts.Restarts, _clips.Count, _gaps.Sum(g => g.LengthS));
    }
}
