namespace Clackbeat.Hydraulics.Rating;

/// <summary>What can be said of a pipe and its load. The words for each stand in the report, never here.</summary>
public enum RatingRemarkCode
{
    /// <summary>The peak, its uncertainty added, stays under the limit.</summary>
    PeakWithin,

    /// <summary>The peak reaches the limit within its uncertainty.</summary>
    PeakNear,

    /// <summary>The peak exceeds the limit.</summary>
    PeakOver,

    /// <summary>The peak may be higher than the one given by an unknown amount.</summary>
    PeakUnbounded,

    /// <summary>No peak is known.</summary>
    PeakUnknown,

    /// <summary>What the pipe may bear is not known.</summary>
    AllowableUnknown,

    /// <summary>Which section of a drive pipe of several is the weakest.</summary>
    WeakestSection,

    /// <summary>The weakest part meets more than its rating.</summary>
    PartOver,

    /// <summary>The weakest part meets its rating within the uncertainty.</summary>
    PartNear,

    /// <summary>The sensor stood at the end of its range.</summary>
    SensorClipped,

    /// <summary>Fewer than six samples fall into a pipe period.</summary>
    SampledTooSlowly,

    /// <summary>The sensor or its line answers too slowly.</summary>
    SensorTooSlow,

    /// <summary>The recorded peaks are known to read low.</summary>
    PeakReadsLow,

    /// <summary>The peak came without an uncertainty.</summary>
    PeakWithoutUncertainty,

    /// <summary>The ceiling, its uncertainty added, exceeds the limit.</summary>
    CeilingOverLimit,

    /// <summary>The ceiling stays under the limit.</summary>
    CeilingUnderLimit,

    /// <summary>The peak lies above the ceiling.</summary>
    PeakAboveCeiling,

    /// <summary>The mean pressure exceeds the plain rating.</summary>
    MeanOverRating,

    /// <summary>No rating can be found.</summary>
    RatingUnknown,

    /// <summary>The rating's table was not checked against the standard: what is printed on the pipe must be read.</summary>
    RatingUnconfirmed,

    /// <summary>Threads cut into plastic halve its rating.</summary>
    ThreadsHalvePlastic,

    /// <summary>Steel is taken as threaded, since nobody said.</summary>
    ThreadsSupposed,

    /// <summary>No temperature factor is known for this pipe at this temperature.</summary>
    NoTemperatureFactor,

    /// <summary>The temperature was left out and taken as 20 °C or less.</summary>
    TemperatureSupposed,

    /// <summary>AWWA C900's allowance for occasional surges isn't used.</summary>
    OccasionalSurgeOfPvc,

    /// <summary>How far polyethylene's allowance for recurring surges was tested.</summary>
    RecurringSurgeOfPolyethylene,

    /// <summary>Soldered joints may bear less than copper tube.</summary>
    SolderedJoints,

    /// <summary>The water column stays whole at the sensor.</summary>
    ColumnWhole,

    /// <summary>The column may part.</summary>
    ColumnMayPart,

    /// <summary>The column parts.</summary>
    ColumnParts,

    /// <summary>The recorded suction is deeper than a full vacuum: the reading is off.</summary>
    BelowVacuum,

    /// <summary>How deep the suction goes is not known.</summary>
    TroughUnknown,

    /// <summary>The suction alone folds a perfectly round wall.</summary>
    WallFolds,

    /// <summary>The wall bears less than twice the suction.</summary>
    WallMayFold,

    /// <summary>The wall bears more than twice the suction.</summary>
    WallHolds,

    /// <summary>Whether the wall folds isn't known.</summary>
    WallUnknown,
}

/// <summary>Something to say of a pipe and its load, as data.</summary>
/// <param name="Code">What.</param>
public sealed record RatingRemark(RatingRemarkCode Code)
{
    /// <summary>The pressure it speaks of [Pa gauge]; null when none.</summary>
    public double? PressurePa { get; init; }

    /// <summary>Its expanded uncertainty, k = 2 [Pa].</summary>
    public double? UncertaintyPa { get; init; }

    /// <summary>What it is held against [Pa gauge].</summary>
    public double? LimitPa { get; init; }

    /// <summary>The ceiling rests on a measured closing velocity; the wall's temperature and the like stand in their own members.</summary>
    public bool IsMeasured { get; init; }

    /// <summary>Temperature it speaks of [°C].</summary>
    public double? TemperatureC { get; init; }

    /// <summary>Name of the part it speaks of; empty when none.</summary>
    public string Part { get; init; } = "";
}
