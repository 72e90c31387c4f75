using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;

namespace Clackbeat.Report.Content;

/// <summary>Every figure with its meaning, and beside it the baseline's and the change where there is one.</summary>
internal sealed class FigureTable(RamAnalysis analysis, RamAnalysis? baseline)
{
    public Table Make() => new(
        "Every figure this record gave",
        baseline is null ? ["Figure", "This record"] : ["Figure", "This record", "Baseline", "Change"],
        [
            new TableGroup("Beat", Beat()),
            new TableGroup("Pressure (gauge)", Pressure()),
            new TableGroup("Water", Water()),
            new TableGroup("Efficiency", Efficiency()),
            new TableGroup("Drive pipe and sensor", DrivePipe()),
        ]);

    private List<TableRow> Beat() =>
    [
        Row("Whole beats", "Beats seen from one closure to the next.", a => a.Beats.Count),
        Row("Beats a minute", "How often the waste valve shuts.", Kind.Rate, a => a.Beats.RatePerMin),
        Row("Beat to beat, middle", "Half of the intervals are longer, half shorter.", Kind.Time, a => a.Beats.IntervalMedianS, 4),
        Row("Beat to beat, short ones", "One interval in twenty is shorter.", Kind.Time, a => a.Beats.IntervalP05S, 4),
        Row("Beat to beat, long ones", "One interval in twenty is longer.", Kind.Time, a => a.Beats.IntervalP95S, 4),
        Row("Unevenness", "Spread of the intervals as a share of their mean; a steady ram stays under a few per cent.", Kind.Share, a => a.Beats.Irregularity, 2),
    ];

    private List<TableRow> Pressure() =>
    [
        Row("While delivering", "Pressure on the ram while water passes into the air vessel.", Kind.Pressure, a => a.Pressure.Delivery),
        Row("Peak, usual", "Half of the beats knock harder, half less.", Kind.Pressure, a => a.Pressure.PeakMedianPa),
        Row("Peak, hard ones", "One beat in twenty knocks harder.", Kind.Pressure, a => a.Pressure.PeakP95Pa),
        Row("Peak, highest sample", "The highest pressure that was caught.", Kind.Pressure, a => a.Pressure.PeakMaxPa),
        Row("True peak, estimated", "What the hard knocks reach between the samples.", Kind.Pressure, a => a.Pressure.PeakTrue),
        Row("Ceiling", CeilingMeaning, Kind.Pressure, a => a.Pressure.PeakCeiling),
        Row("Deepest suction", "The lowest pressure, as the water springs back.", Kind.Pressure, a => a.Pressure.SuctionMinPa),
        Row("Mean", "Average over time; always a little under the pressure at rest.", Kind.Pressure, a => a.Pressure.MeanPa),
        Row("At rest", "What the supply would press with if the water stood still.", Kind.Pressure, a => a.Pressure.StaticPa),
    ];

    private string CeilingMeaning => "A sudden stop of the water at full speed, static + aV/g"
        + (analysis.Pipe.CeilingIsMeasured ? "." : ", at the speed expected of such a ram.");

    private List<TableRow> Water() =>
    [
        Row("Delivered", "Through the delivery valve, up the hill.", Kind.Flow, a => a.Flow.DeliveredM3PerS),
        Row("To waste", "Out of the waste valve: the price of lifting the rest.", Kind.Flow, a => a.Flow.WasteM3PerS),
        Row("Drawn from the supply", "Both together.", Kind.Flow, a => a.Flow.DrawnM3PerS),
        Row("Speed as the valve shuts", "How fast the water in the drive pipe runs just before the knock.", Kind.Speed, a => a.Flow.ClosingVelocityMPerS),
    ];

    private List<TableRow> Efficiency() =>
    [
        Row("After D'Aubuisson", "Lifting power at the outlet over the power of all the water drawn.", Kind.Share, a => a.Efficiency.DAubuisson),
        Row("After Rankine", "The same, counting only the lift above the supply and only the water wasted.", Kind.Share, a => a.Efficiency.Rankine),
        Row("Drive side", "Energy that passes the delivery valve over the energy drawn: the ram without its delivery pipe.", Kind.Share, a => a.Efficiency.DriveSide),
    ];

    private List<TableRow> DrivePipe() =>
    [
        Row("Wave speed", "How fast the knock runs along the drive pipe.", Kind.Speed, a => a.DrivePipe.WaveSpeedMPerS),
        Row("There and back", "Time the knock takes to the intake and back.", Kind.Time, a => a.DrivePipe.PipePeriodS),
        Row("Sensor reads too high by", "The sensor's own error at zero, found from the beat itself.", Kind.Pressure, a => a.DrivePipe.SensorBiasPa, 2),
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

    private static Rich Cell(Measure? quantity) => quantity is { } q ? q : Words.NotGiven;
}
