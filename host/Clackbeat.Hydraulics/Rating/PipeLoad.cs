using Clackbeat.Hydraulics.Fatigue;
using Clackbeat.Hydraulics.Pipes;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>How lengths of a pipe are joined.</summary>
public enum PipeJoint
{
    /// <summary>Not known.</summary>
    Unknown,

    /// <summary>Threads cut into the pipe's own wall.</summary>
    Threaded,

    /// <summary>The wall is left whole: welded, fused, glued, soldered, flanged, gripped or pushed together.</summary>
    Plain,
}

/// <summary>A valve, union, hose, vessel or body with its own rating.</summary>
/// <param name="Name">What it is.</param>
/// <param name="RatingPa">Pressure printed on it [Pa gauge]; null when nobody knows.</param>
public sealed record RatedFitting(string Name, double? RatingPa);

/// <summary>
/// A drive pipe and the load it meets: everything <see cref="PipeRating.Check"/> looks at. SI, gauge pressures unless said.
/// Null means "not known" and weakens the verdict, which then says so.
/// </summary>
public sealed record PipeLoad
{
    /// <summary>Material.</summary>
    public required PipeMaterial Material { get; init; }

    /// <summary>Inside diameter [m].</summary>
    public required double BoreM { get; init; }

    /// <summary>Wall thickness [m].</summary>
    public double? WallM { get; init; }

    /// <summary>Outside diameter [m]; taken as bore and two walls when left out.</summary>
    public double? OutsideDiameterM { get; init; }

    /// <summary>Class written on the pipe, such as "Schedule 40", "SDR 11", "PN 16", "DR 18", "Type L", "Medium".</summary>
    public string? PipeClass { get; init; }

    /// <summary>Rating printed on the pipe [Pa]; wins over every table.</summary>
    public double? PrintedRatingPa { get; init; }

    /// <summary>How it is joined.</summary>
    public PipeJoint Joint { get; init; }

    /// <summary>Wall lost to rust that is allowed for [m]; null for the table's allowance.</summary>
    public double? CorrosionAllowanceM { get; init; }

    /// <summary>Temperature of the wall, the hottest of the year [°C].</summary>
    public double? TemperatureC { get; init; }

    /// <summary>Peak to be judged, an estimate of the true one at the upper end of the beats [Pa].</summary>
    public double? PeakPa { get; init; }

    /// <summary>Expanded uncertainty of the peak, k = 2: sampling, sensor and tap line together [Pa].</summary>
    public double? PeakUncertaintyPa { get; init; }

    /// <summary>The sensor stood at the end of its range: the peak is at least the one given.</summary>
    public bool Clipped { get; init; }

    /// <summary>The caller knows the peak to be a lower bound for another reason, such as air in the tap line.</summary>
    public bool PeakIsLowerBound { get; init; }

    /// <summary>Sample rate [Hz].</summary>
    public double? SampleRateHz { get; init; }

    /// <summary>Pipe period 2L/a [s]; with the sample rate it tells a recorder too slow for peaks.</summary>
    public double? PipePeriodS { get; init; }

    /// <summary>Time the sensor and its line take from 10 to 90 % of a step [s]; null when nobody said.</summary>
    public double? SensorResponseS { get; init; }

    /// <summary>Theoretical ceiling of the peak, static + ρ a V [Pa].</summary>
    public double? CeilingPa { get; init; }

    /// <summary>Its expanded uncertainty, k = 2, or half the width of what is expected [Pa].</summary>
    public double? CeilingUncertaintyPa { get; init; }

    /// <summary>The ceiling rests on a measured closing velocity.</summary>
    public bool CeilingIsMeasured { get; init; }

    /// <summary>Time mean of the pressure [Pa].</summary>
    public double? MeanPa { get; init; }

    /// <summary>Lowest pressure [Pa gauge], negative for suction.</summary>
    public double? TroughPa { get; init; }

    /// <summary>Expanded uncertainty of the trough, k = 2 [Pa].</summary>
    public double? TroughUncertaintyPa { get; init; }

    /// <summary>Pressure of the air outside [Pa absolute].</summary>
    public double AtmospherePa { get; init; } = Water.Constants.StandardAtmospherePa;

    /// <summary>Beats a minute.</summary>
    public double? BeatsPerMin { get; init; }

    /// <summary>Hours a year the ram runs.</summary>
    public double RunningHoursPerYear { get; init; } = 8766;

    /// <summary>Rainflow count of the recorded pressure [Pa]; without it one cycle a beat from trough to peak is taken.</summary>
    public RainflowHistogram? Cycles { get; init; }

    /// <summary>Beating time that <see cref="Cycles"/> covers [s].</summary>
    public double? CyclesDurationS { get; init; }

    /// <summary>
    /// The large cycles among <see cref="Cycles"/> that top out here or above are taken to reach <see cref="PeakPa"/>, for their
    /// peaks may have slipped between the samples [Pa]; null leaves them as counted.
    /// </summary>
    public double? CyclesPeakPa { get; init; }

    /// <summary>Years the pipe is meant to last. 20 is common practice for small rural water works.</summary>
    public double DesignLifeYears { get; init; } = 20;

    /// <summary>Valves, unions, hose, air vessel, body.</summary>
    public IReadOnlyList<RatedFitting> Fittings { get; init; } = [];

    /// <summary>
    /// The sections of a pipe that changes on its way, from the intake to the ram; empty for a pipe of one kind. Each meets the whole
    /// peak: it runs up the pipe, and only near the intake is it less.
    /// </summary>
    public IReadOnlyList<PipeStretch> Stretches { get; init; } = [];

    /// <summary>The load on one of its sections.</summary>
    internal PipeLoad On(PipeStretch stretch) => this with
    {
        Stretches = [],
        Material = stretch.Material,
        BoreM = stretch.BoreM,
        WallM = stretch.WallM,
        OutsideDiameterM = stretch.OutsideDiameterM,
        PipeClass = stretch.PipeClass,
        PrintedRatingPa = stretch.PrintedRatingPa,
        Joint = stretch.Joint,
    };

    /// <summary>Outside diameter as given or from bore and wall [m]; null when neither is known.</summary>
    internal double? OutsideM => OutsideDiameterM ?? (WallM is { } wall ? BoreM + 2 * wall : null);

    /// <summary>Wall as given or from the two diameters [m].</summary>
    internal double? KnownWallM => WallM ?? (OutsideDiameterM is { } outside ? (outside - BoreM) / 2 : null);

    /// <summary>Fewer than six samples a pipe period: the shape of the surge is not resolved.</summary>
    internal bool SampledTooSlowly => SampleRateHz is { } rate && PipePeriodS is { } period && rate * period < 6;

    /// <summary>The sensor needs more than a sixth of a pipe period to answer: it smooths the surge away.</summary>
    internal bool SensorTooSlow => SensorResponseS is { } response && PipePeriodS is { } period && response * 6 > period;

    /// <summary>The peak may be higher than the one given by an unknown amount.</summary>
    internal bool PeakUnbounded => Clipped || PeakIsLowerBound || SampledTooSlowly || SensorTooSlow;
}
