using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Sensing.Conditioning;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Sensing.Power;
using Clackbeat.Sensing.Tapping;
using Clackbeat.Site.Model;

namespace Clackbeat.Site.Check;

/// <summary>What a site's sensor, resistors, tap line and battery come to.</summary>
public sealed record SensingFigures
{
    private const double UsualUsableShare = 0.8;

    private SensingFigures()
    {
    }

    /// <summary>The chain by its data sheets.</summary>
    public required SignalPath Path { get; init; }

    /// <summary>Pressures that the converter reads truly [Pa gauge].</summary>
    public Band UsablePa => Path.UsablePa;

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

    /// <summary>Works the figures out.</summary>
    public static SensingFigures For(RamSite site, WaterProperties water)
    {
        SignalPath path = SiteSensing.PathOf(site);
        LoggerSetup logger = site.Logger;
        double tolerance = logger.ResistorTolerance ?? SiteSensing.Board.ResistorTolerance!.Value;
        bool isCurrent = path.Output.Kind == SignalKind.Current;
        double source = isCurrent ? path.SignalGain : SiteSensing.DividerOf(logger).SourceOhm;
        TapLine? line = site.Sensor is { TapLineLengthM: > 0 and { } length } ? new TapLine(length, site.Sensor.TapLineBoreM ?? 8e-3) : null;
        Converter converter = path.Converter;
        return new SensingFigures
        {
            Path = path,
            WindowShare = path.SignalGain * (path.Output.High - path.Output.Low) / (converter.UsableHighV - converter.UsableLowV),
            GainErrorShare = isCurrent ? tolerance : SiteSensing.DividerOf(logger).WorstErrorShare(tolerance),
            Filter = new LowPass(
                source + (logger.FilterResistorOhm ?? SiteSensing.Board.FilterResistorOhm!.Value),
                logger.FilterCapacitorF ?? SiteSensing.Board.FilterCapacitorF!.Value),
            TapLine = line,
            TapLineHz = line?.QuarterWaveHz(water),
            BatteryDays = DaysOf(site.Battery),
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
