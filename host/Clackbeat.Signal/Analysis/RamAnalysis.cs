using Clackbeat.Hydraulics.Rating;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Flow;

namespace Clackbeat.Signal.Analysis;

/// <summary>What the ram was doing when the record ended.</summary>
public enum RamState
{
    /// <summary>Nothing in the record can be a ram: no samples, or a dead sensor.</summary>
    NoSignal,

    /// <summary>It beats.</summary>
    Beating,

    /// <summary>Waste valve held shut; the body stands at supply head.</summary>
    StoppedShut,

    /// <summary>Waste valve held open; water runs to waste.</summary>
    StoppedOpen,
}

/// <summary>Everything one record told, the whole input of reports, JSON and season store. SI units, gauge pressures.</summary>
public sealed record RamAnalysis
{
    /// <summary>The record itself.</summary>
    public required InputSummary Input { get; init; }

    /// <summary>State at the end of the record.</summary>
    public required RamState State { get; init; }

    /// <summary>Count, rate and regularity.</summary>
    public required BeatSummary Beats { get; init; }

    /// <summary>Pressures.</summary>
    public required PressureSummary Pressure { get; init; }

    /// <summary>Flows; null members were withheld, <see cref="Limits"/> says why.</summary>
    public FlowSummary Flow { get; init; } = new();

    /// <summary>Efficiencies; null members were withheld.</summary>
    public EfficiencySummary Efficiency { get; init; } = new();

    /// <summary>What the record tells of the drive pipe.</summary>
    public DrivePipeSummary DrivePipe { get; init; } = new();

    /// <summary>Supply head the record tells [m above datum], where it contradicts the site's.</summary>
    public Figure? FoundSupplyHeadM { get; init; }

    /// <summary>Where the energy of a mean beat goes; null where the flow was withheld.</summary>
    public EnergySplit? Energy { get; init; }

    /// <summary>What the beats look like, for diagnosis and as a baseline; null when there are too few.</summary>
    public Signature? Signature { get; init; }

    /// <summary>What is wrong, most probable first; empty while nothing could be judged.</summary>
    public IReadOnlyList<Finding> Diagnosis { get; init; } = [];

    /// <summary>The pipe against its rating.</summary>
    public required PipeCheck Pipe { get; init; }

    /// <summary>The pressures the pipe has met; null without a beat.</summary>
    public LoadHistory? Load { get; init; }

    /// <summary>What could not be told or is weak, and why, in sentences.</summary>
    public required IReadOnlyList<string> Limits { get; init; }

    /// <summary>Every whole beat.</summary>
    public required IReadOnlyList<Beat> BeatList { get; init; }

    /// <summary>A bounded picture of the record for plots.</summary>
    public required TracePicture Picture { get; init; }
}

/// <summary>What somebody did at the ram while it was recorded.</summary>
/// <param name="TimeS">When, since the record's first sample [s].</param>
/// <param name="Words">What, in the keeper's words.</param>
public readonly record struct RecordMark(double TimeS, string Words);

/// <summary>The record that was analysed.</summary>
public sealed record InputSummary
{
    /// <summary>File name or description.</summary>
    public required string File { get; init; }

    /// <summary>First to last sample [s].</summary>
    public required double DurationS { get; init; }

    /// <summary>Samples a second, from the median step [Hz]; 0 when there is no step.</summary>
    public required double SampleRateHz { get; init; }

    /// <summary>Usable samples.</summary>
    public required long Samples { get; init; }

    /// <summary>Stretches without samples.</summary>
    public required IReadOnlyList<Gap> Gaps { get; init; }

    /// <summary>What somebody did at the ram meanwhile, in order; none where nobody noted anything.</summary>
    public IReadOnlyList<RecordMark> Marks { get; init; } = [];

    /// <summary>"complete", or what was lost or damaged in words.</summary>
    public required string Completeness { get; init; }

    /// <summary>True when some of the input was lost, damaged or unusable (exit code 3).</summary>
    public bool PartlyUnusable { get; init; }

    /// <summary>Samples at an end of the sensor's range.</summary>
    public required long ClippedSamples { get; init; }

    /// <summary>Samples that repeated an earlier instant.</summary>
    public long RepeatedTimestamps { get; init; }

    /// <summary>Samples that came out of order.</summary>
    public long UnorderedTimestamps { get; init; }

    /// <summary>Rows that held no usable number.</summary>
    public long SkippedRows { get; init; }
}

/// <summary>A stretch without samples.</summary>
/// <param name="StartS">Last sample before it [s].</param>
/// <param name="LengthS">Length [s].</param>
public readonly record struct Gap(double StartS, double LengthS);

/// <summary>The rhythm.</summary>
public sealed record BeatSummary
{
    /// <summary>Whole beats.</summary>
    public required int Count { get; init; }

    /// <summary>Beats a minute while beating; null under two closures.</summary>
    public Figure? RatePerMin { get; init; }

    /// <summary>Median interval [s].</summary>
    public double? IntervalMedianS { get; init; }

    /// <summary>5th percentile of the interval [s].</summary>
    public double? IntervalP05S { get; init; }

    /// <summary>95th percentile of the interval [s].</summary>
    public double? IntervalP95S { get; init; }

    /// <summary>Standard deviation of the interval over its mean.</summary>
    public double? Irregularity { get; init; }
}

/// <summary>Gauge pressures [Pa].</summary>
public sealed record PressureSummary
{
    /// <summary>Delivery plateau.</summary>
    public Figure? Delivery { get; init; }

    /// <summary>Median of the beats' largest samples.</summary>
    public double? PeakMedianPa { get; init; }

    /// <summary>95th percentile of the beats' largest samples.</summary>
    public double? PeakP95Pa { get; init; }

    /// <summary>Largest sample.</summary>
    public double? PeakMaxPa { get; init; }

    /// <summary>Estimated true peak (95th percentile of the beats).</summary>
    public Figure? PeakTrue { get; init; }

    /// <summary>
    /// Theoretical ceiling, static + ρ a V: with the record's closing velocity where it could be told, else with the one expected
    /// of such a ram (<see cref="PipeCheck.CeilingIsMeasured"/>).
    /// </summary>
    public Figure? PeakCeiling { get; init; }

    /// <summary>Lowest suction.</summary>
    public double? SuctionMinPa { get; init; }

    /// <summary>Time mean over the record, gaps left out.</summary>
    public double? MeanPa { get; init; }

    /// <summary>Body pressure at rest under the supply head.</summary>
    public double? StaticPa { get; init; }
}

/// <summary>Flows.</summary>
public sealed record FlowSummary
{
    /// <summary>Through the delivery valve [m³/s].</summary>
    public Figure? DeliveredM3PerS { get; init; }

    /// <summary>Through the waste valve [m³/s].</summary>
    public Figure? WasteM3PerS { get; init; }

    /// <summary>Drawn from the supply [m³/s].</summary>
    public Figure? DrawnM3PerS { get; init; }

    /// <summary>Velocity in the drive pipe as the waste valve shuts [m/s].</summary>
    public Figure? ClosingVelocityMPerS { get; init; }
}

/// <summary>Efficiencies as fractions.</summary>
public sealed record EfficiencySummary
{
    /// <summary>q h / ((q + w) H).</summary>
    public Figure? DAubuisson { get; init; }

    /// <summary>q (h − H) / (w H).</summary>
    public Figure? Rankine { get; init; }

    /// <summary>Energy through the delivery valve over energy drawn.</summary>
    public Figure? DriveSide { get; init; }
}

/// <summary>What the record tells of the drive pipe.</summary>
public sealed record DrivePipeSummary
{
    /// <summary>Measured wave speed [m/s].</summary>
    public Figure? WaveSpeedMPerS { get; init; }

    /// <summary>Pipe period 2L/a [s].</summary>
    public double? PipePeriodS { get; init; }

    /// <summary>What the sensor reads too high [Pa].</summary>
    public double? SensorBiasPa { get; init; }
}

/// <summary>A condition that the record speaks for.</summary>
/// <param name="Condition">Condition code of the contract.</param>
/// <param name="Probability">0 to 1.</param>
/// <param name="Evidence">What in the trace says so.</param>
/// <param name="Advice">What to look at first.</param>
public sealed record Finding(string Condition, double Probability, IReadOnlyList<string> Evidence, string Advice)
{
    /// <summary>The parts of the beat that show it, the clearest first.</summary>
    public IReadOnlyList<BeatPart> Parts { get; init; } = [];

    /// <summary>The changes of the beat that the evidence tells of, for those who put them in words of their own.</summary>
    public IReadOnlyList<SignChange> Signs { get; init; } = [];
}

/// <summary>How far a sign of the beat lies from where it should.</summary>
/// <param name="Sign">The sign.</param>
/// <param name="Change">Its change, in the sign's own measure.</param>
public readonly record struct SignChange(Sign Sign, double Change);
