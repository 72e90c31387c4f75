using Clackbeat.Hydraulics.Rating;

namespace Clackbeat.Hydraulics.Fatigue;

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

    /// <summary>Against the design life: over when the central life falls short of it, near when the low end does.</summary>
    public PipeVerdict Verdict { get; init; }

    /// <summary>
    /// Every life that a curve, an end of the load's uncertainty and a sum at failure give together [years], the shortest first:
    /// the spread of what is published, each combination once. Not probabilities, for nobody knows the curves' weights.
    /// </summary>
    public IReadOnlyList<double> Outcomes { get; init; } = [];

    /// <summary>The rule and its source; empty when none was applied.</summary>
    public string Rule { get; init; } = "";

    /// <summary>Each curve on its own, the gloomiest first.</summary>
    public IReadOnlyList<FatigueCurveLife> Curves { get; init; } = [];

    /// <summary>Beats in a year of the running hours given; null when the beat rate is unknown.</summary>
    public double? BeatsPerYear { get; init; }

    /// <summary>The figure rests on more cycles, or smaller ones, than were ever tested.</summary>
    public bool BeyondTested { get; init; }

    /// <summary>The judgement in plain sentences.</summary>
    public required string Explanation { get; init; }
}
