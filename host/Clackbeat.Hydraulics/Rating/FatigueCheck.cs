namespace Clackbeat.Hydraulics.Rating;

/// <summary>How far fatigue of a pipe can be judged.</summary>
public enum FatigueCoverage
{
    /// <summary>A figure that the judgement needs is missing; the explanation names it.</summary>
    NotEnoughData,

    /// <summary>No recognised curve or rule covers this material or joint.</summary>
    NotCovered,

    /// <summary>A rule covers it, but gives no life in years.</summary>
    RuleOnly,

    /// <summary>Curves give a life.</summary>
    Life,
}

/// <summary>What is missing for a fatigue estimate.</summary>
public enum FatigueLack
{
    /// <summary>Nothing.</summary>
    None,

    /// <summary>The beat rate and the peak, or a recording.</summary>
    Load,

    /// <summary>PVC-U: wall thickness, class or rating.</summary>
    PlasticWall,

    /// <summary>Steel: the wall thickness.</summary>
    SteelWall,

    /// <summary>Thread, tolerance and rust leave no sound wall.</summary>
    SoundWall,

    /// <summary>Polyethylene: a rating and a peak.</summary>
    RatingAndPeak,
}

/// <summary>The rules of a fatigue estimate.</summary>
public enum FatigueRule
{
    /// <summary>None was applied.</summary>
    None,

    /// <summary>PVC-U: rainflow count, Miner's sum, Folkman's curve for the middle and three others for the range.</summary>
    PvcCurves,

    /// <summary>Tough polyethylene: no derating up to the plain rating.</summary>
    Polyethylene,

    /// <summary>EN 1993-1-9 for steel.</summary>
    En1993,
}

/// <summary>What was taken for the swings of a beat where no recording told them.</summary>
public enum SwingAssumption
{
    /// <summary>Nothing: they were counted.</summary>
    None,

    /// <summary>One swing a beat, from zero to the peak.</summary>
    FromZero,

    /// <summary>One swing a beat, from trough to peak.</summary>
    FromTrough,
}

/// <summary>What one fatigue curve says.</summary>
/// <param name="Name">Name of the curve.</param>
/// <param name="Source">Where it is printed.</param>
/// <param name="LifeYears">Life at the measured load [years]; null when no cycle does harm by this curve.</param>
/// <param name="BeyondTested">The life asks for more cycles than the curve's tests were run to.</param>
public sealed record FatigueCurveLife(string Name, string Source, double? LifeYears, bool BeyondTested);

/// <summary>What endless repetition leaves of a pipe.</summary>
public sealed record FatigueCheck
{
    /// <summary>A life longer than this is given as this many years: more would be false precision.</summary>
    public const double LongestLifeYears = 100;

    /// <summary>How far it can be judged.</summary>
    public required FatigueCoverage Coverage { get; init; }

    /// <summary>Life; null unless <see cref="Coverage"/> is <see cref="FatigueCoverage.Life"/>. 100 means "100 or more".</summary>
    public FatigueLife? Life { get; init; }

    /// <summary>
    /// Against the design life: over when the whole range falls short of it, so that even the gentlest curve does; within when
    /// all of it reaches it; near between, where the sources don't agree.
    /// </summary>
    public PipeVerdict Verdict { get; init; }

    /// <summary>
    /// Every life that a curve, an end of the load's uncertainty and a sum at failure give together [years], the shortest first:
    /// the spread of what is published, each combination once. Not probabilities, for nobody knows the curves' weights.
    /// </summary>
    public IReadOnlyList<double> Outcomes { get; init; } = [];

    /// <summary>The rule that was applied.</summary>
    public FatigueRule Rule { get; init; }

    /// <summary>What is missing.</summary>
    public FatigueLack Lack { get; init; }

    /// <summary>What was taken for the swings.</summary>
    public SwingAssumption Assumption { get; init; }

    /// <summary>The peaks may be higher than recorded, so the life is an upper bound.</summary>
    public bool AtBest { get; init; }

    /// <summary>
    /// Polyethylene whose peak exceeds the plain rating, or may: running time in which this ram makes the 4.2 million cycles that
    /// were tested [years]; null otherwise.
    /// </summary>
    public double? TestedWithinYears { get; init; }

    /// <summary>
    /// How many times the gentlest curve's life is that of the harshest, at the load as measured; null without two curves that
    /// give a life. It is what makes the range wide.
    /// </summary>
    public double? CurveRatio =>
        Curves.Count > 1 && Curves.All(c => c.LifeYears is > 0) ? Curves.Max(c => c.LifeYears) / Curves.Min(c => c.LifeYears) : null;

    /// <summary>Each curve on its own, the shortest life first.</summary>
    public IReadOnlyList<FatigueCurveLife> Curves { get; init; } = [];

    /// <summary>Beats in a year of the running hours given; null when the beat rate is unknown.</summary>
    public double? BeatsPerYear { get; init; }

    /// <summary>The figure rests on more cycles, or smaller ones, than were ever tested.</summary>
    public bool BeyondTested { get; init; }
}
