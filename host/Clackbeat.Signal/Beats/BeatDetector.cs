using Clackbeat.Signal.Traces;

namespace Clackbeat.Signal.Beats;

/// <summary>
/// Finds beats in a stream of samples: a beat runs from one closure of the waste valve to the next, and a closure is a
/// rise through the middle between open and delivery level that follows a real open phase. Sub-peaks, bounces and the
/// ring of a shut pipe never follow one. Any chunking gives the same beats. The levels are
/// learnt from the record: until they are known samples are kept, then worked off.
/// </summary>
public sealed class BeatDetector
{
    /// <summary>A lull longer than this ends the chain of beats: the ram has stopped [s].</summary>
    public const double LongestLullS = 16;

    /// <summary>
    /// So far back levels are learnt from, and no open phase is followed further [s]: long enough for several beats at 8 a minute, short
    /// enough to follow a drifting sensor or a falling supply.
    /// </summary>
    internal const double LookBackS = 60;

    // While that minute fills, each look at it tells much that is new; afterwards half of it has to change first.
    private const double LearnEveryS = 5;
    private const double RelearnEveryS = 30;

    private readonly LevelLearner _learner;
    private readonly BeatChain _chain;
    private readonly BeatWalk _walk;
    private double _startS = double.NaN;
    private double _learnAtS;

    /// <summary>Makes a detector.</summary>
    /// <param name="scale">The ram's magnitudes from its site file.</param>
    /// <param name="onBeat">Called for each whole beat, as soon as the closure that ends it is certain.</param>
    public BeatDetector(RamScale scale, Action<BeatWindow> onBeat)
    {
        _learner = new LevelLearner(scale);
        _chain = new BeatChain(Samples, scale, onBeat);
        _walk = new BeatWalk(Samples, scale, _chain);
    }

    /// <summary>The samples still held.</summary>
    public SampleBuffer Samples { get; } = new();

    /// <summary>The levels in force; null until a beating ram was seen.</summary>
    public BeatLevels? Levels { get; private set; }

    /// <summary>Time of the newest closure [s], also of one whose beat is unfinished; null before the first.</summary>
    public double? LastClosureS => _chain.LastClosureS;

    /// <summary>The pressure last fell through the threshold here [s]; null before the first closure.</summary>
    public double? LowSinceS => _chain.LowSinceS;

    /// <summary>Takes the next sample. Times must rise.</summary>
    /// <param name="timeS">Time [s].</param>
    /// <param name="pressurePa">Gauge pressure [Pa].</param>
    public void Add(double timeS, double pressurePa) => Add(new ReadOnlySpan<double>(in timeS), new ReadOnlySpan<double>(in pressurePa));

    /// <summary>Takes the next samples: the same as one after the other, in less time.</summary>
    /// <param name="timeS">Times [s], rising.</param>
    /// <param name="pressurePa">Gauge pressures [Pa], same length.</param>
    public void Add(ReadOnlySpan<double> timeS, ReadOnlySpan<double> pressurePa)
    {
        if (double.IsNaN(_startS) && timeS.Length > 0)
        {
            (_startS, _learnAtS) = (timeS[0], timeS[0] + LearnEveryS);
        }

        while (timeS.Length > 0)
        {
            // As far as nothing is learnt in between; or the one sample at which it is.
            int count = timeS.BinarySearch(_learnAtS);
            count = count < 0 ? ~count : count;
            bool learns = count == 0;
            count = Math.Max(count, 1);
            Keep(timeS[..count], pressurePa[..count]);
            if (learns)
            {
                Learn(timeS[0]);
                double everyS = timeS[0] - _startS < LookBackS ? LearnEveryS : RelearnEveryS;
                _learnAtS += everyS * Math.Ceiling((timeS[0] - _learnAtS + 1e-9) / everyS);
            }

            GoOn();
            timeS = timeS[count..];
            pressurePa = pressurePa[count..];
        }
    }

    /// <summary>Says that no more samples come: the last whole beat is handed out.</summary>
    public void Finish()
    {
        if (Levels is null && Samples.End > 0)
        {
            Learn(Samples.TimeS(Samples.End - 1));
        }

        GoOn();
        if (Levels is not null)
        {
            _chain.End(Samples.End, Levels);
        }
    }

    private void GoOn()
    {
        if (Levels is not null)
        {
            _walk.GoOn(Levels);
        }
    }

    private void Learn(double nowS)
    {
        // After a whole look back without a closure the ram stands, or it beats between other levels than it did: then all begins anew.
        bool begins = Levels is null || _chain.LastSeenS <= nowS - LookBackS;
        bool stood = nowS - _chain.LastSeenS > LongestLullS || _chain.RestartedS > nowS - LookBackS;
        if (stood && !begins)
        {
            // A stop among the samples would pass for the open phase: shut, the body stands at the supply head.
            return;
        }

        long from = Samples.FirstAtOrAfter(nowS - LookBackS);
        BeatLevels? learnt = _learner.Learn(Samples.TimesS(from, Samples.End), Samples.PressuresPa(from, Samples.End));
        if (begins && learnt is not null)
        {
            _walk.StartAt(from);
        }

        Levels = learnt ?? Levels;
    }

    /// <summary>Keeps samples; what neither learning nor an unfinished beat needs any more makes way for them.</summary>
    private void Keep(ReadOnlySpan<double> timeS, ReadOnlySpan<double> pressurePa)
    {
        if (Samples.Room < timeS.Length)
        {
            long needed = Math.Min(Samples.FirstAtOrAfter(timeS[0] - LookBackS), _chain.NeededFrom ?? long.MaxValue);

            // The step from the last sample to the next still counts.
            Samples.DropBefore(Math.Min(needed, Samples.End - 1));
        }

        Samples.Add(timeS, pressurePa);
    }
}
