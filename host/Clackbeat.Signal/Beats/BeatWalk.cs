using Clackbeat.Signal.Traces;

namespace Clackbeat.Signal.Beats;

/// <summary>
/// Walks along the samples and tells closures from all else that rises: a closure is a rise through the threshold that follows a real open
/// phase. Where samples are evenly spaced, only the extremes and the end of a run on one side of the threshold change what
/// follows, so runs are passed over as a whole, with the same result as one sample after the other.
/// </summary>
internal sealed class BeatWalk(SampleBuffer samples, RamScale scale, BeatChain chain)
{
    private long _restart;
    private long _lastAbove = -1;
    private bool _calm = true;

    /// <summary>Number of the next sample to look at.</summary>
    public long Next { get; private set; }

    /// <summary>Begins at a sample, as if the record did.</summary>
    public void StartAt(long index) => (Next, _restart, _lastAbove, _calm) = (index, index, -1, true);

    /// <summary>Goes on to the newest sample.</summary>
    public void GoOn(BeatLevels levels)
    {
        var held = new Held(samples, levels);
        int i = (int)(Next - held.First);
        bool even = IsEven(held.TimesS[Math.Max(0, i - 2)..], levels);
        while (i < held.TimesS.Length)
        {
            bool below = Step(held, i);
            i++;
            if (even && i < held.TimesS.Length)
            {
                i = below ? PassLull(held, i) : PassHigh(held, i);
            }
        }

        Next = held.First + i;
    }

    /// <summary>Tells whether no step among the samples is one that <see cref="NoteLull"/> would take notice of.</summary>
    private bool IsEven(ReadOnlySpan<double> timesS, BeatLevels levels)
    {
        if (timesS.Length < 16)
        {
            return false;
        }

        (double leastS, double mostS) = Extremes.OfSteps(timesS);
        return mostS < levels.ShortestOpenS && (mostS <= 0.25 * scale.PipePeriodS || mostS <= 3 * leastS);
    }

    /// <summary>Looks at one sample; tells whether it lies below the threshold.</summary>
    private bool Step(Held held, int i)
    {
        if (held.First + i > _restart)
        {
            NoteLull(held, i);
        }

        if (held.PressuresPa[i] < held.Levels.ThresholdPa)
        {
            _calm &= held.PressuresPa[i] > held.Levels.CalmFromPa;
            return true;
        }

        TakeAbove(held, i);
        _lastAbove = held.First + i;
        return false;
    }

    /// <summary>Passes over evenly spaced samples that stay below the threshold: only a lull without end matters there.</summary>
    private int PassLull(Held held, int from)
    {
        int to = from + Runs.Below(held.PressuresPa[from..], held.Levels.ThresholdPa);
        if (_lastAbove < 0 && _calm && to > from)
        {
            _calm = Extremes.Of(held.PressuresPa[from..to]).Least > held.Levels.CalmFromPa;
        }

        if (chain.Current is { } closure && held.TimesS[to - 1] - samples.TimeS(closure.LastAbove) > BeatDetector.LongestLullS)
        {
            chain.End(held.First + held.FirstBeyond(from, samples.TimeS(closure.LastAbove), BeatDetector.LongestLullS), held.Levels);
        }

        return to;
    }

    /// <summary>Passes over evenly spaced samples that stay above it: they lengthen the delivery until it is none.</summary>
    private int PassHigh(Held held, int from)
    {
        int to = from + Runs.Above(held.PressuresPa[from..], held.Levels.ThresholdPa);
        _lastAbove = held.First + to - 1;
        if (chain.Current is { } closure)
        {
            double sinceS = samples.TimeS(closure.First);
            double longestS = LongestDeliveryS(held.Levels);
            bool rings = held.TimesS[to - 1] - sinceS > longestS;
            closure.LastAbove = rings ? held.First + held.FirstBeyond(from, sinceS, longestS) : _lastAbove;
            if (rings)
            {
                chain.End(closure.LastAbove, held.Levels);
            }
        }

        return to;
    }

    private void TakeAbove(Held held, int i)
    {
        (long index, double timeS) = (held.First + i, held.TimesS[i]);
        long openSince = OpenSince(timeS);
        double openSinceS = samples.TimeS(openSince);
        bool afterOpenPhase = timeS - openSinceS >= held.Levels.ShortestOpenS && StoodOpen(held, openSinceS, i);
        bool firstOfRecord = _lastAbove < 0 && _calm && index > _restart;
        if (afterOpenPhase || firstOfRecord)
        {
            chain.Accept(new Closure(index, openSince), held.Levels);
        }
        else if (chain.Current is { } closure)
        {
            closure.LastAbove = index;
            if (timeS - samples.TimeS(closure.First) > LongestDeliveryS(held.Levels))
            {
                chain.End(index, held.Levels);
            }
        }
    }

    /// <summary>
    /// Delivery never lasts as long as it took the column to gain its speed, for the delivery head is a multiple of the supply head; what
    /// goes on rising and falling is the ring of a valve that stays shut.
    /// </summary>
    private static double LongestDeliveryS(BeatLevels levels) => 2 * levels.TypicalOpenS;

    /// <summary>Since when the pressure has been low; of a longer standstill the last minute counts, whatever else is still held.</summary>
    private long OpenSince(double timeS)
    {
        long since = _lastAbove >= 0 ? _lastAbove : _restart;
        double earliestS = timeS - BeatDetector.LookBackS;
        return since >= samples.First && samples.TimeS(since) >= earliestS ? since : samples.FirstAtOrAfter(earliestS);
    }

    /// <summary>
    /// Was the waste valve really open before this rise? Then the body stood near the open level for the later half of
    /// the lull; between the swings of a ring, or of bouncing valves, it hangs in suction.
    /// </summary>
    private bool StoodOpen(Held held, double openSinceS, int i)
    {
        long from = Math.Min(samples.FirstAtOrAfter(0.5 * (openSinceS + held.TimesS[i])), held.First + i - 1);
        return Medians.IsAbove(samples.PressuresPa(from, held.First + i), held.Levels.OpenPa - (0.1 * held.Levels.JumpPa));
    }

    /// <summary>Gaps and stops: either the beat only has a hole, or the chain of beats ends here.</summary>
    private void NoteLull(Held held, int i)
    {
        long index = held.First + i;
        ReadOnlySpan<double> timesS = held.TimesS;
        double stepS = timesS[i] - timesS[i - 1];
        if (stepS >= held.Levels.ShortestOpenS)
        {
            // A closure may have gone unseen: what follows starts afresh.
            chain.End(index, held.Levels);
            (_lastAbove, _restart, _calm) = (-1, index, true);
        }
        else if (chain.Current is { } closure)
        {
            // The detector knows no sampling rate; a hole matters when it is large against the wave's travel.
            double earlierStepS = i >= 2 ? timesS[i - 1] - timesS[i - 2] : double.PositiveInfinity;
            closure.HasGap |= stepS > 0.25 * scale.PipePeriodS && stepS > 3 * earlierStepS;
            if (timesS[i] - samples.TimeS(closure.LastAbove) > BeatDetector.LongestLullS)
            {
                chain.End(index, held.Levels);
            }
        }
    }

    /// <summary>The samples held, and the levels to see them by.</summary>
    private readonly ref struct Held(SampleBuffer samples, BeatLevels levels)
    {
        public long First { get; } = samples.First;

        public ReadOnlySpan<double> TimesS { get; } = samples.TimesS(samples.First, samples.End);

        public ReadOnlySpan<double> PressuresPa { get; } = samples.PressuresPa(samples.First, samples.End);

        public BeatLevels Levels { get; } = levels;

        /// <summary>The first place from here on that lies later after an instant than a length.</summary>
        public int FirstBeyond(int from, double sinceS, double lengthS)
        {
            while (TimesS[from] - sinceS <= lengthS)
            {
                from++;
            }

            return from;
        }
    }
}
