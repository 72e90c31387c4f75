using Clackbeat.Signal.Traces;

namespace Clackbeat.Signal.Beats;

/// <summary>
/// Closures that follow each other without a stop or a hole between them: each two make a beat, which is measured and handed out as soon as
/// the delivery after the second is over.
/// </summary>
internal sealed class BeatChain(SampleBuffer samples, RamScale scale, Action<BeatWindow> onBeat)
{
    private Closure? _previous;
    private int _count;

    /// <summary>The closure that began what is going on; null before the first of a chain.</summary>
    public Closure? Current { get; private set; }

    /// <summary>Time of the newest closure [s], also of one whose beat is unfinished; null before the first.</summary>
    public double? LastClosureS { get; private set; }

    /// <summary>The pressure last fell through the threshold here [s]; null before the first closure.</summary>
    public double? LowSinceS { get; private set; }

    /// <summary>Time of the sample at which the newest closure was seen [s].</summary>
    public double LastSeenS { get; private set; } = double.NegativeInfinity;

    /// <summary>Time of the newest closure that came after a stop [s]; none is −∞, and the record's first is none.</summary>
    public double RestartedS { get; private set; } = double.NegativeInfinity;

    /// <summary>Number of the oldest sample that an unfinished beat still needs; null when there is none.</summary>
    public long? NeededFrom => (_previous ?? Current)?.OpenSince;

    /// <summary>Takes the next closure, which ends the delivery before it.</summary>
    public void Accept(Closure closure, BeatLevels levels)
    {
        Settle(closure.First, levels);
        (_previous, Current) = (Current, closure);
        double seenS = samples.TimeS(closure.First);
        RestartedS = double.IsFinite(LastSeenS) && seenS - LastSeenS > BeatDetector.LongestLullS ? seenS : RestartedS;
        LastSeenS = seenS;
        LastClosureS = seenS;
    }

    /// <summary>Ends the chain: nothing from this sample on belongs to its beats.</summary>
    public void End(long end, BeatLevels levels)
    {
        Settle(end, levels);
        (_previous, Current) = (null, null);
    }

    /// <summary>Delivery of the current closure is over: fix its instant and hand out the beat it ends.</summary>
    private void Settle(long end, BeatLevels levels)
    {
        if (Current is null)
        {
            return;
        }

        BeatShape.Settle(samples, Current, scale, levels);
        (LastClosureS, LowSinceS) = (Current.TimeS, samples.TimeS(Current.LastAbove));
        if (_previous is not null)
        {
            Beat beat = BeatShape.Measure(samples, _previous, Current, levels, _count++);
            onBeat(new BeatWindow(beat, samples, _previous.OpenSince, Math.Min(Current.LastAbove + 1, end)));
        }
    }
}
