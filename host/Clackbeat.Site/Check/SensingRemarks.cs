using System.Globalization;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Sensing.Conditioning;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Site.Calibrations;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Site.Check;

/// <summary>What stands out in sensor, resistors, tap line and battery.</summary>
internal static class SensingRemarks
{
    // A spike on a ram's body lasts one to two milliseconds; half of the shorter is its rise.
    private const double ShortSpikeS = 1e-3;

    private const double LeastSpikePassed = 0.7;
    private const double LeastWindowShare = 0.3;
    private const double CoarseShareOfHead = 0.1;
    private const double LongTapLineM = 0.3;
    private const double LooseGainShare = 0.03;
    private const double FewDays = 30;
    private const double OneMillilitreM3 = 1e-6;

    /// <summary>The remarks.</summary>
    public static IEnumerable<Fact> Of(RamSite site, ExpectedFigures expected) =>
    [
        .. AboutChoice(site, expected),
        .. AboutCalibration(site, expected.Sensing.Path),
        .. AboutWindow(site, expected.Sensing, expected.StaticPa),
        .. AboutResistors(site, expected.Sensing),
        .. AboutSpeed(site, expected.Sensing),
        .. AboutTapLine(site, expected),
        .. AboutBattery(site, expected.Sensing),
    ];

    private static IEnumerable<Fact> AboutChoice(RamSite site, ExpectedFigures expected)
    {
        if (expected.Sensing.RangeToBuyPa is null)
        {
            yield return Fact.Of("site.no-sensor-reaches", ("ceiling_pa", Text(site, QuantityKind.Pressure, expected.Ram.PeakCeilingPa.High)));
        }
    }

    private static IEnumerable<Fact> AboutCalibration(RamSite site, SignalPath path)
    {
        if (site.Sensor.Calibration is not { } calibration)
        {
            yield break;
        }

        if (calibration.Path != path)
        {
            yield return Fact.Of("site.calibration-other-chain");
        }

        foreach (CalibrationRemark warning in calibration.Warnings)
        {
            yield return Fact.Of("site.calibration-warning", ("date", calibration.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)), ("warning", CalibrationFacts.Of(warning, site.Units)));
        }
    }

    private static IEnumerable<Fact> AboutWindow(RamSite site, SensingFigures sensing, double staticPa)
    {
        SignalPath path = sensing.Path;
        if (sensing.UsablePa.High < path.RangeHighPa || sensing.UsablePa.Low > path.RangeLowPa)
        {
            double widest = path.Converter.UsableHighV / path.Output.High;
            var range = new Quantity(QuantityKind.Pressure, sensing.UsablePa.Low, site.Units, 2, sensing.UsablePa.High);
            yield return path.Output.Kind == SignalKind.Current
                ? Fact.Of("site.window-shunt", ("range", range), ("ohm", widest))
                : Fact.Of("site.window-divider", ("range", range), ("left_share", widest));
        }
        else if (sensing.WindowShare < LeastWindowShare)
        {
            yield return Fact.Of("site.window-small", ("window_share", sensing.WindowShare));
        }

        if (sensing.StepPa > CoarseShareOfHead * staticPa)
        {
            yield return Fact.Of("site.count-coarse", ("step_pa", Text(site, QuantityKind.Pressure, sensing.StepPa)), ("static_pa", Text(site, QuantityKind.Pressure, staticPa)));
        }
    }

    private static IEnumerable<Fact> AboutResistors(RamSite site, SensingFigures sensing)
    {
        bool isCurrent = sensing.Path.Output.Kind == SignalKind.Current;
        if (isCurrent ? site.Logger.DividerLowerOhm is not null : site.Logger.ShuntOhm is not null)
        {
            yield return isCurrent
                ? Fact.Of("site.output-current")
                : Fact.Of("site.output-voltage");
        }

        if (sensing.GainErrorShare > LooseGainShare)
        {
            yield return Fact.Of("site.resistors-loose", ("error_share", Text(site, QuantityKind.Share, sensing.GainErrorShare, 2)));
        }
    }

    private static IEnumerable<Fact> AboutSpeed(RamSite site, SensingFigures sensing)
    {
        double left = sensing.Filter.SpikePassed(ShortSpikeS);
        if (left < LeastSpikePassed)
        {
            yield return Fact.Of("site.filter-slow", ("corner_hz", sensing.Filter.CornerHz), ("left_share", left));
        }
        else if (site.Logger.SamplingRateHz is { } rate && sensing.Filter.CornerHz > rate)
        {
            yield return Fact.Of("site.filter-above-rate", ("corner_hz", sensing.Filter.CornerHz));
        }

        if (site.Sensor.ResponseTimeS is { } response && Sampling.BandwidthHz(response) < 0.5 / ShortSpikeS / 2)
        {
            yield return Fact.Of("site.sensor-slow", ("response_s", Text(site, QuantityKind.Duration, response)), ("bandwidth_hz", Sampling.BandwidthHz(response)));
        }
    }

    private static IEnumerable<Fact> AboutTapLine(RamSite site, ExpectedFigures expected)
    {
        if (expected.Sensing is not { TapLine: { } line, TapLineHz: { } hertz } || line.LengthM <= LongTapLineM)
        {
            yield break;
        }

        double bubble = line.BubbleHz(
            expected.Hydraulics.Water, OneMillilitreM3, expected.DeliveryPa + site.AtmospherePa);
        yield return Fact.Of("site.tap-line-long", ("length_m", Text(site, QuantityKind.Length, line.LengthM)), ("ring_hz", hertz), ("bubble_hz", bubble));
    }

    private static IEnumerable<Fact> AboutBattery(RamSite site, SensingFigures sensing)
    {
        if (site.Battery is { BurstLengthS: { } burst, BurstIntervalS: { } interval } && burst >= interval)
        {
            yield return Fact.Of("site.never-sleeps");
        }

        if (sensing.BatteryDays is < FewDays and { } days)
        {
            yield return Fact.Of("site.battery-short", ("days", days));
        }
    }

    private static Quantity Text(RamSite site, QuantityKind kind, double value, int digits = 3) => new(kind, value, site.Units, digits);
}
