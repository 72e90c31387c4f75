using System.Numerics.Tensors;
using Clackbeat.Signal.Traces;

namespace Clackbeat.Signal.Beats;

/// <summary>
/// Finds beats in a stream of samples: a beat runs from one closure of the waste valve to the next, and a closure is a
/// rise through the middle between open and delivery level that follows a real open phase. Sub-peaks, bounces and the
/// ring of a shut pipe never follow one. Sample by sample, so any chunking gives the same beats. The levels are
/// learnt from the record: until they are known samples are kept, then worked off.
/// </summary>
public sealed class BeatDetector
{
    /// <summary>A lull longer than this ends the chain of beats: the ram has stopped [s].</summary>
    public const double LongestLullS = 16;

    // Long enough for several beats at 8 a minute; short enough to follow a drifting sensor or a falling supply. While the
    // window fills, each look at it tells much that is new; afterwards half of it has to change first.
    private const double LearnWindowS = 60;
    private const double LearnEveryS = 5;
    private const double RelearnEveryS = 30;

    private readonly RamScale _scale;
    private readonly Action<BeatWindow> _onBeat;
    private readonly LevelLearner _learner;
    private long _next;
    private double _startS;
    private double _learnAtS = double.NaN;
    private Closure? _previous;
    private Closure? _current;
    private long _lastAbove = -1;
    private long _restart;
    private bool _calm = true;
    private int _count;
    private double _lastAcceptedS = double.NegativeInfinity;

    /// <summary>Makes a detector.</summary>
    /// <param name="scale">The ram's magnitudes from its site file.</param>
    /// <param name="onBeat">Called for each whole beat, as soon as the closure that ends it is certain.</param>
    public BeatDetector(RamScale scale, Action<BeatWindow> onBeat) => (_scale, _onBeat, _learner) = (scale, onBeat, new LevelLearner(scale));

    /// <summary>The samples still held.</summary>
    public SampleBuffer Samples { get; } = new();

    /// <summary>The levels in force; null until a beating ram was seen.</summary>
    public BeatLevels? Levels { get; private set; }

    /// <summary>Time of the newest closure [s], also of one whose beat is unfinished; null before the first.</summary>
    public double? LastClosureS { get; private set; }

    /// <summary>The pressure last fell through the threshold here [s]; null before the first closure.</summary>
    public double? LowSinceS { get; private set; }

    /// <summary>Takes the next sample. Times must rise.</summary>
    /// <param name="timeS">Time [s].</param>
    /// <param name="pressurePa">Gauge pressure [Pa].</param>
    public void Add(double timeS, double pressurePa)
    {
        Samples.Add(timeS, pressurePa);
        if (double.IsNaN(_learnAtS))
        {
            (_startS, _learnAtS) = (timeS, timeS + LearnEveryS);
        }

        if (timeS >= _learnAtS)
        {
            Learn(timeS);
            double everyS = timeS - _startS < LearnWindowS ? LearnEveryS : RelearnEveryS;
            _learnAtS += everyS * Math.Ceiling((timeS - _learnAtS + 1e-9) / everyS);
        }

        if (Levels is not null)
        {
            WorkOff();
        }
    }

    /// <summary>Takes the next samples: the same as one after the other, in less time.</summary>
    /// <param name="timeS">Times [s], rising.</param>
    /// <param name="pressurePa">Gauge pressures [Pa], same length.</param>
    public void Add(ReadOnlySpan<double> timeS, ReadOnlySpan<double> pressurePa)
    {
        while (timeS.Length > 0)
        {
            // As far as nothing is learnt in between.
            int calm = 0;
            if (!double.IsNaN(_learnAtS))
            {
                calm = timeS.BinarySearch(_learnAtS);
                calm = calm < 0 ? ~calm : calm;
            }

            if (calm > 0)
            {
                if (Samples.Room < calm)
                {
                    Drop(timeS[0]);
                }

                Samples.Add(timeS[..calm], pressurePa[..calm]);
                if (Levels is not null)
                {
                    WorkOff();
                }
            }

            if (calm < timeS.Length)
            {
                Add(timeS[calm], pressurePa[calm]);
                calm++;
            }

            timeS = timeS[calm..];
            pressurePa = pressurePa[calm..];
        }
    }

    /// <summary>Says that no more samples come: the last whole beat is handed out.</summary>
    public void Finish()
    {
        if (Levels is null && Samples.End > 0)
        {
            Learn(Samples.TimeS(Samples.End - 1));
        }

        if (Levels is not null)
        {
            WorkOff();
            EndChain(Samples.End);
        }
    }

    private void Learn(double nowS)
    {
        long from = Samples.FirstAtOrAfter(nowS - LearnWindowS);
        bool beating = Levels is null || _lastAcceptedS > nowS - LearnWindowS;
        if (beating)
        {
            BeatLevels? learnt = _learner.Learn(Samples.TimesS(from, Samples.End), Samples.PressuresPa(from, Samples.End));
            bool first = Levels is null && learnt is not null;
            Levels = learnt ?? Levels;
            if (first)
            {
                (_next, _restart, _calm) = (from, from, true);
            }
        }

        Drop(nowS);
    }

    private void Drop(double nowS)
    {
        long from = Samples.FirstAtOrAfter(nowS - LearnWindowS);
        long needed = Math.Min(from, (_previous ?? _current)?.OpenSince ?? long.MaxValue);
        Samples.DropBefore(Math.Min(needed, Levels is null ? long.MaxValue : _next));
    }

    private void WorkOff()
    {
        // Nothing is dropped before the next learning, so what is held stands still meanwhile.
        long first = Samples.First;
        ReadOnlySpan<double> times = Samples.TimesS(first, Samples.End);
        ReadOnlySpan<double> pressures = Samples.PressuresPa(first, Samples.End);
        BeatLevels levels = Levels!;
        int i = (int)(_next - first);
        bool even = IsEven(times[Math.Max(0, i - 2)..], levels);
        while (i < times.Length)
        {
            _next = first + i;
            if (_next > _restart)
            {
                NoteLull(times, i, levels);
            }

            bool below = pressures[i] < levels.ThresholdPa;
            if (below)
            {
                _calm &= pressures[i] > levels.OpenPa - (5 * levels.OpenSpreadPa);
            }
            else
            {
                TakeAbove(_next, times[i], levels);
            }

            i++;
            if (even && below)
            {
                i = PassLull(times, pressures, i, levels);
            }
            else if (even)
            {
                i = PassHigh(times, pressures, i, levels);
            }
        }

        _next = first + times.Length;
    }

    /// <summary>Tells whether no step among the samples is one that <see cref="NoteLull"/> would take notice of.</summary>
    private bool IsEven(ReadOnlySpan<double> times, BeatLevels levels)
    {
        if (times.Length < 16)
        {
            return false;
        }

        (double leastS, double mostS) = Runs.Steps(times);
        return mostS < levels.ShortestOpenS && (mostS <= 0.25 * _scale.PipePeriodS || mostS <= 3 * leastS);
    }

    /// <summary>Passes over evenly spaced samples that stay below the threshold: only a lull without end matters there.</summary>
    private int PassLull(ReadOnlySpan<double> times, ReadOnlySpan<double> pressures, int from, BeatLevels levels)
    {
        int to = from + Runs.Below(pressures[from..], levels.ThresholdPa);
        if (to == from)
        {
            return to;
        }

        if (_lastAbove < 0 && _calm)
        {
            _calm = TensorPrimitives.Min(pressures[from..to]) > levels.OpenPa - (5 * levels.OpenSpreadPa);
        }

        if (_current is not null && times[to - 1] - Samples.TimeS(_current.LastAbove) > LongestLullS)
        {
            EndChain(FirstBeyond(times[from..to], Samples.TimeS(_current.LastAbove), LongestLullS) + Samples.First + from);
        }

        return to;
    }

    /// <summary>Passes over evenly spaced samples that stay above it: they lengthen the delivery until it is none.</summary>
    private int PassHigh(ReadOnlySpan<double> times, ReadOnlySpan<double> pressures, int from, BeatLevels levels)
    {
        int to = from + Runs.Above(pressures[from..], levels.ThresholdPa);
        if (to == from)
        {
            return to;
        }

        long last = Samples.First + to - 1;
        if (_current is not null)
        {
            double sinceS = Samples.TimeS(_current.First);
            bool rings = times[to - 1] - sinceS > 2 * levels.TypicalOpenS;
            _current.LastAbove = rings ? Samples.First + from + FirstBeyond(times[from..to], sinceS, 2 * levels.TypicalOpenS) : last;
            if (rings)
            {
                EndChain(_current.LastAbove);
            }
        }

        _lastAbove = last;
        return to;
    }

    private static int FirstBeyond(ReadOnlySpan<double> times, double sinceS, double lengthS)
    {
        int i = 0;
        while (times[i] - sinceS <= lengthS)
        {
            i++;
        }

        return i;
    }

    private void TakeAbove(long index, double timeS, BeatLevels levels)
    {
        double openSinceS = Samples.TimeS(Math.Max(_lastAbove >= 0 ? _lastAbove : _restart, Samples.First));
        bool afterOpenPhase = timeS - openSinceS >= levels.ShortestOpenS && StoodOpen(openSinceS, timeS, index, levels);
        bool firstOfRecord = _lastAbove < 0 && _calm && index > _restart;
        if (afterOpenPhase || firstOfRecord)
        {
            Accept(new Closure(index, _lastAbove >= 0 ? _lastAbove : _restart), timeS);
        }
        else if (_current is not null)
        {
            _current.LastAbove = index;

            // Delivery never lasts as long as it took the column to gain its speed, for the delivery head is a
            // multiple of the supply head; what goes on rising and falling is the ring of a valve that stays shut.
            if (timeS - Samples.TimeS(_current.First) > 2 * levels.TypicalOpenS)
            {
                EndChain(index);
            }
        }

        _lastAbove = index;
    }

    /// <summary>
    /// Was the waste valve really open before this rise? Then the body stood near the open level for the later half of
    /// the lull; between the swings of a ring, or of bouncing valves, it hangs in suction.
    /// </summary>
    private bool StoodOpen(double openSinceS, double timeS, long index, BeatLevels levels)
    {
        long from = Math.Min(Samples.FirstAtOrAfter(0.5 * (openSinceS + timeS)), index - 1);
        return Medians.IsAbove(Samples.PressuresPa(from, index), levels.OpenPa - (0.1 * levels.JumpPa));
    }

    /// <summary>Gaps and stops: either the beat only has a hole, or the chain of beats ends here.</summary>
    private void NoteLull(ReadOnlySpan<double> times, int i, BeatLevels levels)
    {
        double stepS = times[i] - times[i - 1];
        if (stepS >= levels.ShortestOpenS)
        {
            // A closure may have gone unseen: what follows starts afresh.
            EndChain(_next);
            (_lastAbove, _restart, _calm) = (-1, _next, true);
        }
        else if (_current is not null)
        {
            // The detector knows no sampling rate; a hole matters when it is large against the wave's travel.
            double earlierStepS = i >= 2 ? times[i - 1] - times[i - 2] : double.PositiveInfinity;
            _current.HasGap |= stepS > 0.25 * _scale.PipePeriodS && stepS > 3 * earlierStepS;
            if (times[i] - Samples.TimeS(_current.LastAbove) > LongestLullS)
            {
                EndChain(_next);
            }
        }
    }

    private void Accept(Closure closure, double timeS)
    {
        Settle(closure.First);
        (_previous, _current) = (_current, closure);
        (LastClosureS, _lastAcceptedS) = (timeS, timeS);
    }

    /// <summary>Delivery of the current closure is over: fix its instant and hand out the beat it ends.</summary>
    private void Settle(long end)
    {
        if (_current is null)
        {
            return;
        }

        if (_current.TimeS is null)
        {
            BeatShape.Settle(Samples, _current, _scale, Levels!);
        }

        (LastClosureS, LowSinceS) = (_current.TimeS, Samples.TimeS(_current.LastAbove));
        if (_previous is not null)
        {
            Beat beat = BeatShape.Measure(Samples, _previous, _current, Levels!, _count++);
            _onBeat(new BeatWindow(beat, Samples, _previous.OpenSince, Math.Min(_current.LastAbove + 1, end)));
        }
    }

    private void EndChain(long end)
    {
        Settle(end);
        (_previous, _current) = (null, null);
    }
}
