using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Sensing.Choosing;
using Clackbeat.Sensing.Conditioning;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Sensing.Power;
using Clackbeat.Sensing.Tapping;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Site.Check;

/// <summary>What a site's sensor, resistors, tap line and battery come to.</summary>
public sealed record SensingFigures
{
    private const double UsualUsableShare = 0.8;

    // Data sheets tell the settling at room temperature; half as much again is waited.
    private const double SettlingMargin = 1.5;

    private SensingFigures()
    {
    }

    /// <summary>The chain by its data sheets.</summary>
    public required SignalPath Path { get; init; }

    /// <summary>Pressures that the converter reads truly [Pa gauge].</summary>
    public Band UsablePa => Path.UsablePa;

    /// <summary>Upper end of the sensor's range to buy [Pa gauge]; null when no usual sensor reaches the ceiling of the peaks.</summary>
    public required double? RangeToBuyPa { get; init; }

    /// <summary>Pressure of one count [Pa].</summary>
    public double StepPa => Path.StepPa;

    /// <summary>Share of the converter's window that the sensor's range takes.</summary>
    public required double WindowShare { get; init; }

    /// <summary>Greatest error of the slope by the resistors' tolerance before calibration, as a share.</summary>
    public required double GainErrorShare { get; init; }

    /// <summary>The filter at the converter's pin.</summary>
    public required LowPass Filter { get; init; }

    /// <summary>The tap line; null when the file doesn't describe one.</summary>
    public required TapLine? TapLine { get; init; }

    /// <summary>Resonance of the tap line full of water [Hz]; null without one.</summary>
    public required double? TapLineHz { get; init; }

    /// <summary>Days that the battery lasts; null when the file doesn't say enough.</summary>
    public required double? BatteryDays { get; init; }

    /// <summary>What the firmware is to wait after switching the sensor on [ms]; null where the file names no settling time.</summary>
    public required int? SensorSettleMilliseconds { get; init; }

    /// <summary>The battery's cut-off in counts, as the firmware wants it; null where the file names none.</summary>
    public required int? BatteryCutOffCounts { get; init; }

    /// <summary>Works the figures out.</summary>
    /// <param name="site">A site without contradictions.</param>
    /// <param name="water">Its water.</param>
    /// <param name="peakCeilingPa">Highest pressure that a beat of this ram can make [Pa gauge].</param>
    public static SensingFigures For(RamSite site, WaterProperties water, double peakCeilingPa)
    {
        SignalPath path = SiteSensing.PathOf(site);
        LoggerSetup logger = site.Logger;
        double tolerance = logger.ResistorTolerance ?? SiteSensing.Board.ResistorTolerance!.Value;
        bool isCurrent = path.Output.Kind == SignalKind.Current;
        TapLine? line = site.Sensor is { TapLineLengthM: > 0 and { } length } ? new TapLine(length, site.Sensor.TapLineBoreM ?? 8e-3) : null;
        Converter converter = path.Converter;
        return new SensingFigures
        {
            Path = path,
            RangeToBuyPa = SensorChoice.RangePa(peakCeilingPa),
            WindowShare = path.SignalGain * (path.Output.High - path.Output.Low) / (converter.UsableHighV - converter.UsableLowV),
            GainErrorShare = isCurrent ? tolerance : SiteSensing.DividerOf(logger).WorstErrorShare(tolerance),
            Filter = SiteSensing.FilterOf(site),
            TapLine = line,
            TapLineHz = line?.QuarterWaveHz(water),
            BatteryDays = DaysOf(site.Battery),
            SensorSettleMilliseconds = site.Sensor.SettlingTimeS is { } settling ? (int)Math.Ceiling(1000 * SettlingMargin * settling) : null,
            BatteryCutOffCounts = site.Battery.CutOffV is { } volts ? (int)Math.Round(SiteSensing.BatteryCountsAt(site.Logger, volts)) : null,
        };
    }

    private static double? DaysOf(BatterySetup battery) => battery is
    {
        CapacityC: { } capacity, BurstLengthS: { } burst, BurstIntervalS: { } interval, AwakeA: { } awake, AsleepA: { } asleep
    }
        ? new EnergyBudget { AwakeA = awake, AsleepA = asleep, BurstS = burst, IntervalS = interval }
            .Days(capacity, battery.UsableShare ?? UsualUsableShare)
        : null;
}
