using Clackbeat.Hydraulics;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Site.Model;

namespace Clackbeat.Site;

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
        ResistorTolerance = 0.01,
        FilterResistorOhm = 4.7e3,
        FilterCapacitorF = 22e-9,
    };

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
                : Share(logger.DividerUpperOhm ?? Board.DividerUpperOhm, logger.DividerLowerOhm ?? Board.DividerLowerOhm),
            SupplyGain = Share(
                logger.SupplyDividerUpperOhm ?? Board.SupplyDividerUpperOhm,
                logger.SupplyDividerLowerOhm ?? Board.SupplyDividerLowerOhm),
            Converter = ConverterOf(logger),
        };
    }

    /// <summary>Counts to pressure by the data sheets that a site file copies.</summary>
    public static SensorConversion ConversionOf(RamSite site) => SensorConversion.Nominal(PathOf(site));

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

    private static double Share(double? upperOhm, double? lowerOhm) => lowerOhm!.Value / (upperOhm!.Value + lowerOhm.Value);
}
