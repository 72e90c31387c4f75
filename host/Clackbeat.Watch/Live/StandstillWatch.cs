using Clackbeat.Signal.Beats;
using Clackbeat.Signal.States;
using Clackbeat.Signal.Traces;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Watch.Live;

/// <summary>
/// Tells at once that a ram has stopped, and how. The judgement of a whole record waits for three intervals to be sure;
/// a keeper beside the ram wants to know after the first beat that fails to come, and sees a wrong alarm taken back by
/// the next beat.
/// </summary>
internal sealed class StandstillWatch
{
    /// <summary>So much longer than the longest usual interval a beat may take before it counts as missing.</summary>
    public const double Overdue = 1.5;

    private const double FrozenS = 3;
    private const int Remembered = 24;

    private readonly double _supplyPa;
    private readonly double _sensorZeroPa;
    private readonly Queue<(double IntervalS, double OpenPa)> _recent = new();
    private double _firstS = double.NaN;
    private double _lastPa = double.NaN;
    private double _changedS;

    /// <summary>Makes a watch.</summary>
    /// <param name="supplyPa">ρgH [Pa].</param>
    /// <param name="sensorZeroPa">What the sensor reads with the body empty [Pa].</param>
    public StandstillWatch(double supplyPa, double sensorZeroPa) => (_supplyPa, _sensorZeroPa) = (supplyPa, sensorZeroPa);

    /// <summary>The body's level as a share of the supply head, where the ram stands still; null while it beats.</summary>
    public double? RestShare { get; private set; }

    /// <summary>Takes a whole beat.</summary>
    public void Add(Beat beat)
    {
        _recent.Enqueue((beat.IntervalS, beat.OpenStartPa));
        if (_recent.Count > Remembered)
        {
            _recent.Dequeue();
        }
    }

    /// <summary>Notes whether the reading moves at all.</summary>
    public void Add(double timeS, double pressurePa)
    {
        _firstS = double.IsNaN(_firstS) ? timeS : _firstS;
        if (!pressurePa.Equals(_lastPa))
        {
            (_lastPa, _changedS) = (pressurePa, timeS);
        }
    }

    /// <summary>What the ram is doing at the newest sample.</summary>
    /// <param name="lastClosureS">The newest closure [s]; null before the first.</param>
    /// <param name="samples">Recent samples.</param>
    public LiveState Judge(double? lastClosureS, SampleBuffer samples)
    {
        RestShare = null;
        if (samples.End == samples.First)
        {
            return LiveState.Waiting;
        }

        double nowS = samples.TimeS(samples.End - 1);
        if (nowS - _changedS > FrozenS)
        {
            return LiveState.NoSignal;
        }

        double silentS = nowS - (lastClosureS ?? _firstS);
        if (silentS <= LongestSilenceS())
        {
            return lastClosureS is null ? LiveState.Listening : LiveState.Beating;
        }

        RestShare = (StandstillRule.LevelPa(samples, lastClosureS ?? _firstS, nowS) - ZeroPa()) / _supplyPa;
        return StandstillRule.StateOf(RestShare.Value, zeroKnown: _recent.Count > 0) == RamState.StoppedShut
            ? LiveState.StoppedShut
            : LiveState.StoppedOpen;
    }

    private double LongestSilenceS()
    {
        if (_recent.Count == 0)
        {
            return BeatDetector.LongestLullS;
        }

        return Overdue * _recent.Select(r => r.IntervalS).QuantileCustom(0.95, QuantileDefinition.R7);
    }

    private double ZeroPa()
    {
        if (_recent.Count == 0)
        {
            return _sensorZeroPa;
        }

        return _recent.Select(r => r.OpenPa).Median();
    }
}
