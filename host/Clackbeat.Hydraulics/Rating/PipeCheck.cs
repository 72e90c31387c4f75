namespace Clackbeat.Hydraulics.Rating;

/// <summary>Years until fatigue is expected to crack the pipe, as a range.</summary>
/// <param name="Value">Central estimate [years].</param>
/// <param name="Low">Lower bound [years].</param>
/// <param name="High">Upper bound [years].</param>
public sealed record FatigueLife(double Value, double Low, double High);

/// <summary>What decided the verdict on the pressure.</summary>
public enum PipeDecision
{
    /// <summary>The peak against what the pipe may bear.</summary>
    Pressure,

    /// <summary>The peak against the weakest part's rating.</summary>
    Part,

    /// <summary>The suction against the wall.</summary>
    Folding,
}

/// <summary>The pipe's rating, the load it meets and the verdict, all gauge pressures.</summary>
public sealed record PipeCheck
{
    /// <summary>Rating of the pipe as printed, tabled or computed, for cold water and plain ends [Pa]; null when unknown.</summary>
    public double? RatedPa { get; init; }

    /// <summary>Where the rating comes from; null when there is none.</summary>
    public RatingSource? Source { get; init; }

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
    /// The verdict on the pressure: over when the peak, a part or the suction is over, unknown when the peak can't be judged, near
    /// when anything is near. Fatigue has a verdict of its own.
    /// </summary>
    public PipeVerdict Verdict { get; init; }

    /// <summary>The verdict on fatigue: over only where even the gentlest curve gives less than the design life.</summary>
    public PipeVerdict FatigueVerdict => Fatigue?.Verdict ?? PipeVerdict.Unknown;

    /// <summary>The verdict on the peak against the pipe alone.</summary>
    public PipeVerdict PressureVerdict { get; init; }

    /// <summary>The rule on the peak.</summary>
    public PressureRule Rule { get; init; }

    /// <summary>What decided the verdict.</summary>
    public PipeDecision DecidedBy { get; init; }

    /// <summary>Fatigue life; null where no recognised curve covers the pipe or no figure can be given.</summary>
    public FatigueLife? FatigueLifeYears { get; init; }

    /// <summary>Fatigue in full; null only in a record that was never judged.</summary>
    public FatigueCheck? Fatigue { get; init; }

    /// <summary>The suction side; null only in a record that was never judged.</summary>
    public SuctionCheck? Suction { get; init; }

    /// <summary>Every rated part, the weakest first.</summary>
    public IReadOnlyList<FittingCheck> Fittings { get; init; } = [];

    /// <summary>The sections of a pipe that changes on its way, each by its own rating; empty for a pipe of one kind. The rest of this record is of the weakest.</summary>
    public IReadOnlyList<StretchCheck> Stretches { get; init; } = [];

    /// <summary>The weakest section, which the figures are of; null for a pipe of one kind.</summary>
    public string? Weakest { get; init; }

    /// <summary>What the verdict says, the peak first.</summary>
    public IReadOnlyList<RatingRemark> Remarks { get; init; } = [];

    /// <summary>What else should be known: what was assumed, what is missing, where the rule ends.</summary>
    public IReadOnlyList<RatingRemark> Notes { get; init; } = [];

    /// <summary>What conflicting sources would allow.</summary>
    public IReadOnlyList<RatingAlternative> Alternatives { get; init; } = [];

    /// <summary>Allowable over peak; null when either is unknown or the peak is no pressure. Above 1 is a margin.</summary>
    public double? Margin => AllowablePa is { } allowable && PeakPa is > 0 ? allowable / PeakPa : null;
}
