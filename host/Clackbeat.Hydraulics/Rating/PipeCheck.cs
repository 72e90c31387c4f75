using Clackbeat.Hydraulics.Fatigue;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>Years until fatigue is expected to crack the pipe, as a range.</summary>
/// <param name="Value">Central estimate [years].</param>
/// <param name="Low">Lower bound [years].</param>
/// <param name="High">Upper bound [years].</param>
public sealed record FatigueLife(double Value, double Low, double High);

/// <summary>What another source, rule or assumption would allow.</summary>
/// <param name="AllowablePa">Allowable recurring pressure by it [Pa gauge].</param>
/// <param name="Basis">The source or rule, and why it was not the one chosen.</param>
public sealed record RatingAlternative(double AllowablePa, string Basis);

/// <summary>The pipe's rating, the load it meets and the verdict, all gauge pressures.</summary>
public sealed record PipeCheck
{
    /// <summary>What every page that shows a verdict ends with.</summary>
    public const string Deferral =
        "This is a reading of published rules, not a design. What the maker of the pipe and fittings prints, local codes and "
        + "the judgement of a licensed engineer take precedence. Never stand over, tighten or cut a pipe under pressure.";

    /// <summary>Rating of the pipe as printed, tabled or computed, for cold water and plain ends [Pa]; null when unknown.</summary>
    public double? RatedPa { get; init; }

    /// <summary>Where the rating comes from, in words.</summary>
    public string RatingSource { get; init; } = "";

    /// <summary>Factor for temperature that was applied.</summary>
    public double TemperatureFactor { get; init; } = 1;

    /// <summary>Factor for threaded joints that was applied.</summary>
    public double JointFactor { get; init; } = 1;

    /// <summary>Factor of the recurring-surge rule that was applied.</summary>
    public double RecurringFactor { get; init; } = 1;

    /// <summary>What a recurring load may reach, after derating [Pa].</summary>
    public double? AllowablePa { get; init; }

    /// <summary>The peak that was compared [Pa].</summary>
    public double? PeakPa { get; init; }

    /// <summary>Its expanded uncertainty, k = 2 [Pa].</summary>
    public double? PeakUncertaintyPa { get; init; }

    /// <summary>Theoretical ceiling of the peak, static + ρ a V [Pa]; null when it was not given.</summary>
    public double? CeilingPa { get; init; }

    /// <summary>Its expanded uncertainty, or half the width of what is expected [Pa].</summary>
    public double? CeilingUncertaintyPa { get; init; }

    /// <summary>The ceiling rests on a measured closing velocity; otherwise on the one expected of such a ram.</summary>
    public bool CeilingIsMeasured { get; init; }

    /// <summary>Lowest pressure that was looked at [Pa gauge].</summary>
    public double? TroughPa { get; init; }

    /// <summary>Years the pipe is meant to last.</summary>
    public double DesignLifeYears { get; init; }

    /// <summary>
    /// The verdict on the whole: over when anything is over, unknown when the peak can't be judged, near when anything is near.
    /// </summary>
    public PipeVerdict Verdict { get; init; }

    /// <summary>The verdict on the peak alone.</summary>
    public PipeVerdict PressureVerdict { get; init; }

    /// <summary>The rule that decided the verdict, named with its source, in words.</summary>
    public string Rule { get; init; } = "";

    /// <summary>Fatigue life; null where no recognised curve covers the pipe or no figure can be given.</summary>
    public FatigueLife? FatigueLifeYears { get; init; }

    /// <summary>Fatigue in full; null only in a record that was never judged.</summary>
    public FatigueCheck? Fatigue { get; init; }

    /// <summary>The suction side; null only in a record that was never judged.</summary>
    public SuctionCheck? Suction { get; init; }

    /// <summary>Every rated part, the weakest first.</summary>
    public IReadOnlyList<FittingCheck> Fittings { get; init; } = [];

    /// <summary>The verdict in a few sentences for the keeper.</summary>
    public IReadOnlyList<Sentence> Explanation { get; init; } = [];

    /// <summary>What else should be known: what was assumed, what is missing, where the rule ends.</summary>
    public IReadOnlyList<Sentence> Notes { get; init; } = [];

    /// <summary>What conflicting sources would allow.</summary>
    public IReadOnlyList<RatingAlternative> Alternatives { get; init; } = [];

    /// <summary>Allowable over peak; null when either is unknown or the peak is no pressure. Above 1 is a margin.</summary>
    public double? Margin => AllowablePa is { } allowable && PeakPa is > 0 ? allowable / PeakPa : null;
}
