using Clackbeat.Records.Samples;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.States;

/// <summary>Counts what a record holds as it streams past: length, rate, gaps, mean, clipping.</summary>
internal sealed class RecordTally
{
    private readonly double _vacuumPa;
    private readonly double _clipLowPa;
    private readonly double _belowRangePa;
    private readonly List<Gap> _gaps = [];
    private readonly QuantileTracker _jumps = new();
    private readonly double _marginPa;
    private double _topPa = double.NegativeInfinity;
    private long _top;
    private long _underVacuum;
    private double _runSinceS;
    private double _beforeLastPa;
    private double _usualStepS;
    private double _firstS;
    private double _lastS;
    private double _lastPa;
    private double _areaPaS;
    private double _gapsS;
    private long _low;
    private double _lowestPa = double.PositiveInfinity;
    private double _highestPa = double.NegativeInfinity;

    /// <summary>Makes a tally.</summary>
    /// <param name="sensor">The sensor.</param>
    /// <param name="atmospherePa">Pressure of the air around [Pa absolute].</param>
    public RecordTally(Sensor sensor, double atmospherePa)
    {
        _vacuumPa = -atmospherePa;
        // Converters saturate a few counts short of their end; half a thousandth of the span covers 11 bits and more.
        double marginPa = 0.0005 * (sensor.RangeHighPa - sensor.RangeLowPa);
        _marginPa = marginPa;
        (ClipHighPa, _clipLowPa) = (sensor.RangeHighPa - marginPa, sensor.RangeLowPa + marginPa);
        _belowRangePa = sensor.RangeLowPa - marginPa;
    }

    /// <summary>A sample from here on counts as clipped [Pa].</summary>
    public double ClipHighPa { get; }

    /// <summary>Samples.</summary>
    public long Count { get; private set; }

    /// <summary>Samples at the upper end of the sensor's range.</summary>
    public long ClippedHigh { get; private set; }

    /// <summary>Samples at the lower end of the range, if nothing was ever read below it.</summary>
    public long ClippedLow => _lowestPa >= _belowRangePa ? _low : 0;

    /// <summary>Every sample had the same value.</summary>
    public bool Flat => _highestPa <= _lowestPa;

    /// <summary>Lowest sample [Pa].</summary>
    public double LowestPa => _lowestPa;

    /// <summary>Highest sample [Pa].</summary>
    public double HighestPa => _highestPa;

    /// <summary>Share of the samples that stand at the highest level, within a thousandth of the span.</summary>
    public double TopShare => Count > 0 ? (double)_top / Count : 0;

    /// <summary>Share of the samples under a perfect vacuum, by more than a hundredth of the span.</summary>
    public double VacuumShare => Count > 0 ? (double)_underVacuum / Count : 0;

    /// <summary>How long the newest samples have had one and the same value [s].</summary>
    public double LastRunS => _lastS - _runSinceS;

    /// <summary>
    /// Standard deviation of the sensor's noise [Pa]: from the calmest fifth of the second differences, for a ram itself is
    /// restless much of the time, while a noisy sensor is so always. A fifth of normal values lies within 0.2533 deviations,
    /// and the second difference has six times the variance.
    /// </summary>
    public double NoisePa => _jumps.Quantile(0.2) / (0.2533 * Math.Sqrt(6));

    /// <summary>First to last sample [s].</summary>
    public double DurationS => Count > 0 ? _lastS - _firstS : 0;

    /// <summary>Time of the newest sample [s].</summary>
    public double LastS => _lastS;

    /// <summary>Samples a second where there is no gap [Hz].</summary>
    public double RateHz => DurationS > _gapsS ? (Count - 1 - _gaps.Count) / (DurationS - _gapsS) : 0;

    /// <summary>Mean over time, gaps left out (trapezoidal rule) [Pa]; null without any step.</summary>
    public double? MeanPa => DurationS > _gapsS ? _areaPaS / (DurationS - _gapsS) : null;

    /// <summary>Stretches without samples.</summary>
    public IReadOnlyList<Gap> Gaps => _gaps;

    /// <summary>Says what a usual step is [s], before the first sample.</summary>
    public void SetUsualStep(double stepS) => _usualStepS = stepS;

    /// <summary>Takes the next sample.</summary>
    public void Add(double timeS, double pressurePa)
    {
        if (Count++ == 0)
        {
            _firstS = timeS;
        }
        else
        {
            double stepS = timeS - _lastS;
            if (GapRule.IsGap(stepS, _usualStepS))
            {
                _gaps.Add(new Gap(_lastS, stepS));
                _gapsS += stepS;
            }
            else
            {
                _areaPaS += 0.5 * (pressurePa + _lastPa) * stepS;
            }
        }

        _underVacuum += pressurePa < _vacuumPa - (20 * _marginPa) ? 1 : 0;
        NoteTop(pressurePa);
        NoteRun(timeS, pressurePa);
        ClippedHigh += pressurePa >= ClipHighPa ? 1 : 0;
        _low += pressurePa <= _clipLowPa ? 1 : 0;
        _lowestPa = Math.Min(_lowestPa, pressurePa);
        _highestPa = Math.Max(_highestPa, pressurePa);
        (_lastS, _lastPa) = (timeS, pressurePa);
    }

    private void NoteTop(double pressurePa)
    {
        if (pressurePa > _topPa + _marginPa)
        {
            (_topPa, _top) = (pressurePa, 1);
        }
        else if (pressurePa > _topPa - _marginPa)
        {
            _top++;
        }
    }

    private void NoteRun(double timeS, double pressurePa)
    {
        if (Count == 1 || !pressurePa.Equals(_lastPa))
        {
            _runSinceS = timeS;
        }

        if (Count > 2)
        {
            _jumps.Add(Math.Abs(_beforeLastPa - (2 * _lastPa) + pressurePa));
        }

        _beforeLastPa = _lastPa;
    }
}
