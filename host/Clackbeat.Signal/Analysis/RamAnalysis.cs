using Clackbeat.Hydraulics.Rating;
using Clackbeat.Records.Samples;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Signal.States;
using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.Analysis;

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

    /// <summary>
    /// Flows now; null members were withheld, <see cref="Limits"/> says why. A ram that stands still has none, see <see cref="WhileBeating"/>.
    /// </summary>
    public FlowSummary Flow { get; init; } = new();

    /// <summary>Efficiencies now; null members were withheld.</summary>
    public EfficiencySummary Efficiency { get; init; } = new();

    /// <summary>
    /// The same analysis of a record that its keeper gives as made when the ram was well: no valve leaked then, so its flows are figures.
    /// </summary>
    public RamAnalysis AsWell() => this with
    {
        Flow = Flow with
        {
            DeliveredM3PerS = Flow.DeliveredM3PerS is { } q ? q with { IsUpperBound = false } : null,
            DrawnM3PerS = Flow.DrawnM3PerS is { } d ? d with { IsUpperBound = false } : null,
        },
        Efficiency = new EfficiencySummary
        {
            DAubuisson = Efficiency.DAubuisson is { } a ? a with { IsUpperBound = false } : null,
            Rankine = Efficiency.Rankine is { } r ? r with { IsUpperBound = false } : null,
            DriveSide = Efficiency.DriveSide is { } e ? e with { IsUpperBound = false } : null,
        },
        Limits = [.. Limits.Where(l => !LeakBound.IsReason(l))],
    };

    /// <summary>What the ram did before it stopped; null while it beats, and where it never did.</summary>
    public LastBeats? WhileBeating { get; init; }

    /// <summary>True where the ram stands still at the record's end.</summary>
    public bool IsStopped => State is RamState.StoppedShut or RamState.StoppedOpen;

    /// <summary>What the record tells of the drive pipe.</summary>
    public DrivePipeSummary DrivePipe { get; init; } = new();

    /// <summary>Supply head the record tells [m above datum], where it contradicts the site's.</summary>
    public Figure? FoundSupplyHeadM { get; init; }

    /// <summary>Where the energy of a mean beat goes; null where the flow was withheld.</summary>
    public EnergySplit? Energy { get; init; }

    /// <summary>What the fit of the drive pipe found: the open valve's constant, the losses; null where the flow was withheld.</summary>
    public FlowFeatures? Column { get; init; }

    /// <summary>What the beats look like, for diagnosis and as a baseline; null when there are too few.</summary>
    public Signature? Signature { get; init; }

    /// <summary>What is wrong, most probable first; empty while nothing could be judged.</summary>
    public IReadOnlyList<Finding> Diagnosis { get; init; } = [];

    /// <summary>Probability of every condition of a ram that beats, also of those too unlikely to be a finding; none where the beats were not judged.</summary>
    public IReadOnlyList<(string Condition, double Probability)> Judged { get; init; } = [];

    /// <summary>Whether the record's zero is off by the pressure of the air. Where it is, no figure of the ram may be believed.</summary>
    public ZeroCheck Zero { get; init; }

    /// <summary>The pipe against its rating.</summary>
    public required PipeCheck Pipe { get; init; }

    /// <summary>The pressures the pipe has met; null without a beat.</summary>
    public LoadHistory? Load { get; init; }

    /// <summary>What the record shows beside its figures and the diagnosis.</summary>
    public IReadOnlyList<Fact> Findings { get; init; } = [];

    /// <summary>What could not be told or is weak, and why.</summary>
    public required IReadOnlyList<Fact> Limits { get; init; }

    /// <summary>Why the flow was withheld; null where it was not, or where nothing says so.</summary>
    public Fact? WhyNoFlow => Limits.FirstOrDefault(l => l.Code is
        "flow-withheld-few-beats" or "flow-withheld-sampled-too-slowly" or "flow-withheld-no-open-law" or "flow-withheld-backwards");

    /// <summary>Every whole beat.</summary>
    public required IReadOnlyList<Beat> BeatList { get; init; }

    /// <summary>A bounded picture of the record for plots.</summary>
    public required TracePicture Picture { get; init; }
}

/// <summary>The record that was analysed.</summary>
public sealed record InputSummary
{
    /// <summary>File name or description.</summary>
    public required string File { get; init; }

    /// <summary>First to last sample [s].</summary>
    public required double DurationS { get; init; }

    /// <summary>The first sample in the record's own time [s].</summary>
    public double StartS { get; init; }

    /// <summary>Samples a second, from the median step [Hz]; 0 when there is no step.</summary>
    public required double SampleRateHz { get; init; }

    /// <summary>Usable samples.</summary>
    public required long Samples { get; init; }

    /// <summary>Stretches without samples.</summary>
    public required IReadOnlyList<Gap> Gaps { get; init; }

    /// <summary>What somebody did at the ram meanwhile, in order; none where nobody noted anything.</summary>
    public IReadOnlyList<RecordMark> Marks { get; init; } = [];

    /// <summary>What of the samples was lost or damaged.</summary>
    public IReadOnlyList<Fact> Losses { get; init; } = [];

    /// <summary>What the source of the record lost besides, such as a recorder that was stopped hard.</summary>
    public IReadOnlyList<Fact> SourceLosses { get; init; } = [];

    /// <summary>All that was lost, the source's first; none for a record that is complete.</summary>
    public IEnumerable<Fact> AllLosses => SourceLosses.Concat(Losses);

    /// <summary>True when some of the input was lost, damaged or unusable (exit code 3).</summary>
    public bool PartlyUnusable { get; init; }

    /// <summary>How well the logger's board tells the samples' times; null where no board measured that.</summary>
    public BoardTiming? Board { get; init; }

    /// <summary>Samples at an end of the sensor's range.</summary>
    public required long ClippedSamples { get; init; }

    /// <summary>Samples that repeated an earlier instant.</summary>
    public long RepeatedTimestamps { get; init; }

    /// <summary>Samples that came out of order.</summary>
    public long UnorderedTimestamps { get; init; }

    /// <summary>Rows that held no usable number.</summary>
    public long SkippedRows { get; init; }
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

    /// <summary>Estimated peak (95th percentile of the beats).</summary>
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

    /// <summary>True where <see cref="StaticPa"/> was read from a shut valve, false where it follows from the supply head.</summary>
    public bool StaticIsMeasured { get; init; }
}

/// <summary>What a ram that has stopped did while it beat, in the record's own time.</summary>
/// <param name="FromS">First closure [s].</param>
/// <param name="UntilS">End of the last whole beat [s].</param>
/// <param name="Flow">Flows of these beats.</param>
/// <param name="Efficiency">Efficiencies of these beats.</param>
public sealed record LastBeats(double FromS, double UntilS, FlowSummary Flow, EfficiencySummary Efficiency);
