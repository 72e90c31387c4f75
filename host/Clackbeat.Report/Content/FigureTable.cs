using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Words;

namespace Clackbeat.Report.Content;

/// <summary>Every figure with its meaning, and beside it the baseline's and the change where there is one.</summary>
internal sealed class FigureTable(RamAnalysis analysis, RamAnalysis? baseline)
{
    public Table Make() => new(
        Phrases.Say("report.every-figure-record-gave-holds"),
        baseline is null ? [Phrases.Say("report.figure"), Phrases.Say("report.this-record")] : [Phrases.Say("report.figure"), Phrases.Say("report.this-record"), Phrases.Say("report.baseline"), Phrases.Say("report.change")],
        [
            new TableGroup(Phrases.Say("report.beat-2"), Beat()),
            new TableGroup(Phrases.Say("report.pressure-gauge"), Pressure()),
            new TableGroup(Phrases.Say("report.water") + Before, Water()),
            new TableGroup(Phrases.Say("report.efficiency") + Before, Efficiency()),
            new TableGroup(Phrases.Say("report.drive-pipe-sensor"), DrivePipe()),
        ]);

    // A ram that has stopped delivers nothing; what stands here is what it did.
    private string Before => analysis.WhileBeating is not null ? Phrases.Say("report.until-stands-still-since", ("until", ReportWords.Until(analysis))) : "";

    private static FlowSummary FlowOf(RamAnalysis one) => one.WhileBeating?.Flow ?? one.Flow;

    private static EfficiencySummary EfficiencyOf(RamAnalysis one) => one.WhileBeating?.Efficiency ?? one.Efficiency;

    private List<TableRow> Beat() =>
    [
        Row(Phrases.Say("report.whole-beats"), Phrases.Say("report.beats-seen-one-closure-next"), a => a.Beats.Count),
        Row(Phrases.Say("report.beats-minute"), Phrases.Say("report.how-often-waste-valve-shuts"), Kind.Rate, a => a.Beats.RatePerMin),
        Row(Phrases.Say("report.beat-beat-middle"), Phrases.Say("report.half-intervals-longer-half-shorter"), Kind.Time, a => a.Beats.IntervalMedianS, 4),
        Row(Phrases.Say("report.beat-beat-short-ones"), Phrases.Say("report.one-interval-twenty-shorter"), Kind.Time, a => a.Beats.IntervalP05S, 4),
        Row(Phrases.Say("report.beat-beat-long-ones"), Phrases.Say("report.one-interval-twenty-longer"), Kind.Time, a => a.Beats.IntervalP95S, 4),
        Row(Phrases.Say("report.unevenness"), Phrases.Say("report.spread-intervals-share-their-mean"), Kind.Share, a => a.Beats.Irregularity, 2),
    ];

    private List<TableRow> Pressure() =>
    [
        Row(Phrases.Say("report.while-delivering"), Phrases.Say("report.pressure-ram-while-water-passes"), Kind.Pressure, a => a.Pressure.Delivery),
        Row(Phrases.Say("report.peak-usual"), Phrases.Say("report.half-beats-knock-harder-half"), Kind.Pressure, a => a.Pressure.PeakMedianPa),
        Row(Phrases.Say("report.peak-hard-ones"), Phrases.Say("report.one-beat-twenty-knocks-harder"), Kind.Pressure, a => a.Pressure.PeakP95Pa),
        Row(Phrases.Say("report.peak-highest-sample"), Phrases.Say("report.highest-pressure-caught"), Kind.Pressure, a => a.Pressure.PeakMaxPa),
        Row(Phrases.Say("report.estimated-peak"), Phrases.Say("report.what-hard-knocks-reach-between"), Kind.Pressure, a => a.Pressure.PeakTrue),
        Row(Phrases.Say("report.ceiling"), CeilingMeaning, Kind.Pressure, a => a.Pressure.PeakCeiling),
        Row(Phrases.Say("report.deepest-suction"), Phrases.Say("report.lowest-pressure-water-springs-back"), Kind.Pressure, a => a.Pressure.SuctionMinPa),
        Row(Phrases.Say("report.mean"), Phrases.Say("report.average-over-time-always-little"), Kind.Pressure, a => a.Pressure.MeanPa),
        Row(Phrases.Say("report.rest"), Phrases.Say("report.read-while-water-stood-still"), Kind.Pressure, a => a.Pressure.StaticIsMeasured ? a.Pressure.StaticPa : null),
    ];

    private string CeilingMeaning => Phrases.Say("report.sudden-stop-water-full-speed")
        + (analysis.Pipe.CeilingIsMeasured ? "." : Phrases.Say("report.speed-expected-such-ram"));

    private List<TableRow> Water() =>
    [
        Row(Phrases.Say("report.delivered"), Phrases.Say("report.through-delivery-valve-up-hill"), Kind.Flow, a => FlowOf(a).DeliveredM3PerS),
        Row(Phrases.Say("report.waste"), Phrases.Say("report.out-waste-valve-price-lifting"), Kind.Flow, a => FlowOf(a).WasteM3PerS),
        Row(Phrases.Say("report.drawn-supply"), Phrases.Say("report.both-together"), Kind.Flow, a => FlowOf(a).DrawnM3PerS),
        Row(Phrases.Say("report.speed-valve-shuts"), Phrases.Say("report.how-fast-water-drive-pipe"), Kind.Speed, a => FlowOf(a).ClosingVelocityMPerS),
    ];

    private List<TableRow> Efficiency() =>
    [
        Row(Phrases.Say("report.after-daubuisson"), Phrases.Say("report.lifting-power-outlet-over-power"), Kind.Share, a => EfficiencyOf(a).DAubuisson),
        Row(Phrases.Say("report.after-rankine"), Phrases.Say("report.same-counting-only-lift-above"), Kind.Share, a => EfficiencyOf(a).Rankine),
        Row(Phrases.Say("report.drive-side"), Phrases.Say("report.energy-passes-delivery-valve-over"), Kind.Share, a => EfficiencyOf(a).DriveSide),
    ];

    private List<TableRow> DrivePipe() =>
    [
        Row(Phrases.Say("report.wave-speed"), Phrases.Say("report.how-fast-knock-runs-along"), Kind.Speed, a => a.DrivePipe.WaveSpeedMPerS),
        Row(Phrases.Say("report.there-back"), Phrases.Say("report.time-knock-takes-intake-back"), Kind.Time, a => a.DrivePipe.PipePeriodS),
        Row(Phrases.Say("report.supply-level-found"), Phrases.Say("report.where-record-contradicts-site-file"), Kind.Length, a => a.FoundSupplyHeadM),
        Row(Phrases.Say("report.sensor-reads-too-high"), Phrases.Say("report.sensors-own-error-zero-found"), Kind.Pressure, a => a.DrivePipe.SensorBiasPa, 2),
    ];

    private TableRow Row(string name, string meaning, Kind kind, Func<RamAnalysis, Figure?> pick) => Row(
        name, meaning, Show.Of(kind, pick(analysis)), Show.Of(kind, baseline is null ? null : pick(baseline)),
        () => Comparison.Of(kind, pick(analysis), pick(baseline!)));

    private TableRow Row(string name, string meaning, Kind kind, Func<RamAnalysis, double?> pick, int digits = 3) => Row(
        name, meaning, Show.Of(kind, pick(analysis), digits), Show.Of(kind, baseline is null ? null : pick(baseline), digits),
        () => Comparison.Of(kind, pick(analysis), pick(baseline!)));

    private TableRow Row(string name, string meaning, Func<RamAnalysis, int> pick) => new(
        name, meaning, baseline is null ? [Rich.Of($"{pick(analysis)}")] : [Rich.Of($"{pick(analysis)}"), Rich.Of($"{pick(baseline)}"), Rich.Empty]);

    private TableRow Row(string name, string meaning, Measure? now, Measure? before, Func<Rich> change) =>
        new(name, meaning, baseline is null ? [Cell(now)] : [Cell(now), Cell(before), change()]);

    private static Rich Cell(Measure? quantity) => quantity is { } q ? q : ReportWords.NotGiven;
}
