using Clackbeat.Signal.Traces;

namespace Clackbeat.Signal.Beats;

/// <summary>
/// Walks along the samples and tells closures from all else that rises: a closure is a rise through the threshold that follows a real open
/// phase.
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
        for (; i < held.TimesS.Length; i++)
        {
            Step(in held, i);
        }

        Next = held.First + i;
    }

    private void Step(in Held held, int i)
    {
        if (held.First + i > _restart)
        {
            NoteLull(in held, i);
        }

        if (held.PressuresPa[i] < held.Levels.ThresholdPa)
        {
            _calm &= held.PressuresPa[i] > held.Levels.CalmFromPa;
            return;
        }

        TakeAbove(in held, i);
        _lastAbove = held.First + i;
    }

    private void TakeAbove(in Held held, int i)
    {
        (long index, double timeS) = (held.First + i, held.TimesS[i]);
        long openSince = OpenSince(timeS);
        double openSinceS = samples.TimeS(openSince);
        bool afterOpenPhase = timeS - openSinceS >= held.Levels.ShortestOpenS && StoodOpen(in held, openSinceS, i);
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
    /// <remarks>
    /// A ring swings about the open level, so it spends half of its time below it, and its median may lie on either side. The column gains
    /// speed only while the valve stands open. So three quarters of that half must stay above. An open level with the largest scatter that
    /// <see cref="LevelLearner"/> takes for calm, a standard deviation of a tenth of the jump, has its lower quartile 0.067 jumps below the middle.
    /// </remarks>
    private bool StoodOpen(in Held held, double openSinceS, int i)
    {
        long from = Math.Min(samples.FirstAtOrAfter(0.5 * (openSinceS + held.TimesS[i])), held.First + i - 1);
        return Medians.LowerQuartileIsAbove(samples.PressuresPa(from, held.First + i), held.Levels.OpenPa - (0.1 * held.Levels.JumpPa));
    }

    /// <summary>Gaps and stops: either the beat only has a hole, or the chain of beats ends here.</summary>
    private void NoteLull(in Held held, int i)
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
    }
}
