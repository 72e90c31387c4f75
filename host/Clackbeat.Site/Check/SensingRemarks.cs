using System.Globalization;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Sensing.Conditioning;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Site.Check;

/// <summary>What stands out in sensor, resistors, tap line and battery.</summary>
internal static class SensingRemarks
{
    // A spike on a ram's body lasts one to two milliseconds; half of the shorter is its rise.
    private const double ShortSpikeS = 1e-3;

    private const double LeastSpikeLeft = 0.7;
    private const double LeastWindowShare = 0.3;
    private const double CoarseShareOfHead = 0.1;
    private const double LongTapLineM = 0.3;
    private const double LooseGainShare = 0.03;
    private const double FewDays = 30;
    private const double OneMillilitreM3 = 1e-6;

    /// <summary>The remarks, in sentences.</summary>
    public static IEnumerable<string> Of(RamSite site, ExpectedFigures expected) =>
    [
        .. AboutCalibration(site, expected.Sensing.Path),
        .. AboutWindow(site, expected.Sensing, expected.StaticPa),
        .. AboutResistors(site, expected.Sensing),
        .. AboutSpeed(site, expected.Sensing),
        .. AboutTapLine(site, expected),
        .. AboutBattery(site, expected.Sensing),
    ];

    private static IEnumerable<string> AboutCalibration(RamSite site, SignalPath path)
    {
        if (site.Sensor.Calibration is not { } calibration)
        {
            yield break;
        }

        if (calibration.Path != path)
        {
            yield return "The calibration was made with another range, output, divider, shunt or converter than this file gives; "
                + "recordings are read with the calibration's. Calibrate again if a part was changed.";
        }

        foreach (var warning in calibration.Warnings)
        {
            yield return $"Calibration of {calibration.Date:yyyy-MM-dd}: {warning}";
        }
    }

    private static IEnumerable<string> AboutWindow(RamSite site, SensingFigures sensing, double staticPa)
    {
        SignalPath path = sensing.Path;
        if (sensing.UsablePa.High < path.RangeHighPa || sensing.UsablePa.Low > path.RangeLowPa)
        {
            double widest = path.Converter.UsableHighV / path.Output.High;
            yield return $"Of the sensor's range the converter reads only "
                + $"{QuantityFormat.FormatRange(QuantityKind.Pressure, sensing.UsablePa.Low, sensing.UsablePa.High, site.Units)} truly. "
                + (path.Output.Kind == SignalKind.Current
                    ? string.Create(CultureInfo.InvariantCulture, $"A shunt of {widest:0} Ω or a little less would show it all.")
                    : string.Create(CultureInfo.InvariantCulture, $"A divider that leaves {100 * widest:0} % or a little less would show it all."));
        }
        else if (sensing.WindowShare < LeastWindowShare)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"The sensor's range takes only {100 * sensing.WindowShare:0} % of the converter's window; a larger shunt or a divider that leaves more reads finer.");
        }

        if (sensing.StepPa > CoarseShareOfHead * staticPa)
        {
            yield return $"One count is {Text(site, QuantityKind.Pressure, sensing.StepPa)}, against {Text(site, QuantityKind.Pressure, staticPa)} "
                + "under the supply head; the open phase will be drawn in coarse steps. A narrower sensor reads finer.";
        }
    }

    private static IEnumerable<string> AboutResistors(RamSite site, SensingFigures sensing)
    {
        bool isCurrent = sensing.Path.Output.Kind == SignalKind.Current;
        if (isCurrent ? site.Logger.DividerLowerOhm is not null : site.Logger.ShuntOhm is not null)
        {
            yield return isCurrent
                ? "The sensor's output is a current: the divider in the file is not used, the shunt is."
                : "The sensor's output is a voltage: the shunt in the file is not used, the divider is.";
        }

        if (sensing.GainErrorShare > LooseGainShare)
        {
            yield return $"The resistors' tolerance alone may put every pressure off by {Text(site, QuantityKind.Share, sensing.GainErrorShare, 2)} "
                + "until the sensor is calibrated: clackbeat calibrate";
        }
    }

    private static IEnumerable<string> AboutSpeed(RamSite site, SensingFigures sensing)
    {
        double left = sensing.Filter.SpikeLeft(ShortSpikeS);
        if (left < LeastSpikeLeft)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"The filter before the converter (corner {sensing.Filter.CornerHz:0} Hz) leaves {100 * left:0} % of a spike of one millisecond; a smaller capacitor leaves more.");
        }
        else if (site.Logger.SamplingRateHz is { } rate && sensing.Filter.CornerHz > rate)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"The filter's corner ({sensing.Filter.CornerHz:0} Hz) lies above the sampling rate; noise and ringing fold back into the record.");
        }

        if (site.Sensor.ResponseTimeS is { } response && Sampling.BandwidthHz(response) < 0.5 / ShortSpikeS / 2)
        {
            yield return $"A sensor of {Text(site, QuantityKind.Duration, response)} follows up to some {Sampling.BandwidthHz(response):0} Hz; "
                + "a spike of one or two milliseconds is cut off, and the true peak is higher than shown.";
        }
    }

    private static IEnumerable<string> AboutTapLine(RamSite site, ExpectedFigures expected)
    {
        if (expected.Sensing is not { TapLine: { } line, TapLineHz: { } hertz } || line.LengthM <= LongTapLineM)
        {
            yield break;
        }

        double bubble = line.BubbleHz(
            expected.Hydraulics.Water, OneMillilitreM3, expected.DeliveryPa + Constants.StandardAtmospherePa);
        yield return string.Create(
            CultureInfo.InvariantCulture,
            $"The tap line is {Text(site, QuantityKind.Length, line.LengthM)} long: full of water it rings at {hertz:0} Hz, with a millilitre of air in it at some {bubble:0}, and then hides the peaks. Sit the sensor on the body, or bleed the line.");
    }

    private static IEnumerable<string> AboutBattery(RamSite site, SensingFigures sensing)
    {
        if (site.Battery is { BurstLengthS: { } burst, BurstIntervalS: { } interval } && burst >= interval)
        {
            yield return "[battery] burst_length is not shorter than burst_interval: the logger never sleeps.";
        }

        if (sensing.BatteryDays is < FewDays and { } days)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"The battery lasts some {days:0} days on this schedule; shorter or rarer records, a board that sleeps deeper, or a small solar panel carry it further.");
        }
    }

    private static string Text(RamSite site, QuantityKind kind, double value, int digits = 3) =>
        QuantityFormat.Format(kind, value, site.Units, digits);
}
