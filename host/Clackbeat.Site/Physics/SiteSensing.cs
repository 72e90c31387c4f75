using Clackbeat.Hydraulics;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Sensing.Conditioning;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Site.Model;

namespace Clackbeat.Site.Physics;

/// <summary>What a site file says of the way from pressure to counts; the board of the hardware pages where it is silent.</summary>
public static class SiteSensing
{
    /// <summary>Limit of error taken for a sensor whose data sheet nobody copied: the usual class of transmitters.</summary>
    public const double UsualAccuracyShareOfSpan = 0.005;

    /// <summary>The resistors of the hardware pages.</summary>
    public static LoggerSetup Board { get; } = new()
    {
        DividerUpperOhm = 10e3,
        DividerLowerOhm = 10e3,
        ShuntOhm = 100,
        SupplyDividerUpperOhm = 15e3,
        SupplyDividerLowerOhm = 10e3,
        BatteryDividerUpperOhm = 100e3,
        BatteryDividerLowerOhm = 20e3,
        ResistorTolerance = 0.01,
        FilterResistorOhm = 4.7e3,
        FilterCapacitorF = 22e-9,
    };

    /// <summary>
    /// The filter's capacitor behind a shunt, whose 100 Ω add nothing to the filter's resistor: 22 nF would let through what
    /// lies above the sampling rate.
    /// </summary>
    public const double LoopFilterCapacitorF = 47e-9;

    /// <summary>The filter before the converter, of a file or of the hardware pages.</summary>
    public static LowPass FilterOf(RamSite site)
    {
        SignalPath path = PathOf(site);
        bool isCurrent = path.Output.Kind == SignalKind.Current;
        double source = isCurrent ? path.SignalGain : DividerOf(site.Logger).SourceOhm;
        return new LowPass(
            source + (site.Logger.FilterResistorOhm ?? Board.FilterResistorOhm!.Value),
            site.Logger.FilterCapacitorF ?? (isCurrent ? LoopFilterCapacitorF : Board.FilterCapacitorF!.Value));
    }

    /// <summary>Divider of the battery's channel.</summary>
    public static Divider BatteryDividerOf(LoggerSetup logger) => new(
        logger.BatteryDividerUpperOhm ?? Board.BatteryDividerUpperOhm!.Value,
        logger.BatteryDividerLowerOhm ?? Board.BatteryDividerLowerOhm!.Value);

    /// <summary>Voltage of the battery that counts stand for by the data sheets [V]; the converter's reference alone is ±9 %.</summary>
    public static double BatteryVoltsAt(LoggerSetup logger, double counts) =>
        ConverterOf(logger).VoltsAt(counts) / BatteryDividerOf(logger).Share;

    /// <summary>
    /// Expanded uncertainty (k = 2) of that voltage, as a share: the reference of the board's converter differs by 9 % from chip to
    /// chip (its maker's data sheet), and the divider's resistors by 1 %. A meter at the battery tells better.
    /// </summary>
    public const double BatteryUncertaintyShare = 0.1;

    /// <summary>So much above its cut-off the keeper is told of the battery [V]: some days of a lead battery's last tenth.</summary>
    public const double BatteryMarginV = 0.3;

    /// <summary>Counts that a voltage of the battery makes by the data sheets.</summary>
    public static double BatteryCountsAt(LoggerSetup logger, double volts) =>
        ConverterOf(logger).CountsAt(volts * BatteryDividerOf(logger).Share);

    /// <summary>Sensor, conditioning and converter by their data sheets.</summary>
    public static SignalPath PathOf(RamSite site)
    {
        SensorOutput output = site.Sensor.Output ?? SensorOutput.RatiometricHalfToFourAndAHalfVolts;
        LoggerSetup logger = site.Logger;
        return new SignalPath
        {
            RangeLowPa = site.Sensor.RangeLowPa,
            RangeHighPa = site.Sensor.RangeHighPa,
            Output = output,
            SupplyV = site.Sensor.SupplyV ?? 5.0,
            SignalGain = output.Kind == SignalKind.Current
                ? logger.ShuntOhm ?? Board.ShuntOhm!.Value
                : DividerOf(logger).Share,
            SupplyGain = SupplyDividerOf(logger).Share,
            Converter = ConverterOf(logger),
        };
    }

    /// <summary>Counts to pressure: by the site's calibration, or else by the data sheets that its file copies.</summary>
    public static SensorConversion ConversionOf(RamSite site) => site.Sensor.Calibration is { } calibration
        ? SensorConversion.Calibrated(calibration)
        : SensorConversion.Nominal(PathOf(site));

    /// <summary>What the data sheets allow before any point is taken.</summary>
    /// <param name="site">The site.</param>
    /// <param name="supplyIsRead">The sensor's supply is read with every point and in use.</param>
    public static ChainKnowledge KnowledgeOf(RamSite site, bool supplyIsRead) => ChainKnowledge.FromDataSheets(
        PathOf(site),
        site.Sensor.AccuracyShareOfSpan ?? UsualAccuracyShareOfSpan,
        GainErrorShare(site, supplyIsRead),
        supplyIsRead);

    /// <summary>Signal divider of a sensor in volts.</summary>
    public static Divider DividerOf(LoggerSetup logger) => new(
        logger.DividerUpperOhm ?? Board.DividerUpperOhm!.Value, logger.DividerLowerOhm ?? Board.DividerLowerOhm!.Value);

    /// <summary>Divider of the supply's channel.</summary>
    public static Divider SupplyDividerOf(LoggerSetup logger) => new(
        logger.SupplyDividerUpperOhm ?? Board.SupplyDividerUpperOhm!.Value,
        logger.SupplyDividerLowerOhm ?? Board.SupplyDividerLowerOhm!.Value);

    // Signal and supply each have their divider; the worst of both together.
    private static double GainErrorShare(RamSite site, bool supplyIsRead)
    {
        double tolerance = site.Logger.ResistorTolerance ?? Board.ResistorTolerance!.Value;
        if (PathOf(site).Output.Kind == SignalKind.Current)
        {
            return tolerance;
        }

        return DividerOf(site.Logger).WorstErrorShare(tolerance)
            + (supplyIsRead ? SupplyDividerOf(site.Logger).WorstErrorShare(tolerance) : 0);
    }

    private static Converter ConverterOf(LoggerSetup logger)
    {
        Converter usual = new();
        Band window = logger.ConverterWindowV ?? new Band(usual.UsableLowV, usual.UsableHighV);
        return usual with
        {
            ZeroV = logger.ConverterZeroV ?? usual.ZeroV,
            FullScaleV = logger.ConverterFullScaleV ?? usual.FullScaleV,
            MaxCounts = logger.ConverterBits is { } bits ? (int)((1L << bits) - 1 & int.MaxValue) : usual.MaxCounts,
            UsableLowV = window.Low,
            UsableHighV = window.High,
        };
    }
}
