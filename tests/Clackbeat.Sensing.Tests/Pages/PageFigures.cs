using System.Globalization;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Sensing.Choosing;
using Clackbeat.Sensing.Conditioning;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Sensing.Power;
using Clackbeat.Sensing.Tapping;
using Clackbeat.Site.Physics;

namespace Clackbeat.Sensing.Tests.Pages;

/// <summary>
/// Every figure that the hardware pages work out, by the name that stands behind it on the page, from the parts of the
/// pages and the sums of the program. The sums themselves are held against publications and hand calculation in
/// <c>Clackbeat.Checks</c>.
/// </summary>
internal static class PageFigures
{
    private const double CellOhm = 10;
    private const double FuseLowOhm = 2.5;
    private const double FuseHighOhm = 7.5;
    private const double DiodeLowV = 0.4;
    private const double DiodeHighV = 0.7;

    // The board's rail and a Schottky diode at a milliampere or two (BAS40: 0.38 V at 1 mA, data sheet).
    private const double ClampV = 3.3 + 0.42;

    // 0.3 V above the rail is what the chip's pins bear (its data sheet, absolute maximum ratings).
    private const double PinLimitV = 3.6;
    private const double GuardOhm = 1e3;
    private const double SensorA = 0.010;
    private const double BatteryV = 12.8;
    private const double BatteryC = 12 * 3600;
    private const double UsableShare = 0.8;
    private const double SensorRiseS = 1e-3;

    private static readonly WaterProperties Water = WaterProperties.At(20);
    private static readonly Divider Signal = SiteSensing.DividerOf(SiteSensing.Board);
    private static readonly Divider Supply = SiteSensing.SupplyDividerOf(SiteSensing.Board);
    private static readonly Divider Battery = SiteSensing.BatteryDividerOf(SiteSensing.Board);
    private static readonly Shunt Shunt = new(SiteSensing.Board.ShuntOhm!.Value);
    private static readonly SignalPath TenBar = new() { RangeLowPa = 0, RangeHighPa = 10e5 };
    private static readonly Converter Converter = new();
    private static readonly double FilterOhm = SiteSensing.Board.FilterResistorOhm!.Value;
    private static readonly LowPass Filter = new(Signal.SourceOhm + FilterOhm, SiteSensing.Board.FilterCapacitorF!.Value);
    private static readonly LowPass LoopFilter = new(Shunt.Ohm + FilterOhm, SiteSensing.LoopFilterCapacitorF);

    private static readonly PowerParts Ratiometric = new()
    {
        BatteryV = BatteryV,
        ConverterEfficiency = 0.85,
        ConverterIdleA = 0.1e-3,
        BoardAwakeA = 80e-3,
        BoardAsleepA = 1e-3,
        SensorA = SensorA + (5 / (Supply.UpperOhm + Supply.LowerOhm)),
        SensorIsSwitched = true,
        BatteryDividerOhm = Battery.UpperOhm + Battery.LowerOhm,
    };

    private static readonly PowerParts Loop = Ratiometric with { SensorA = 0, LoopA = 12e-3 };

    public static IReadOnlyDictionary<string, string> All { get; } = Make().ToDictionary(f => f.Name, f => f.Text);

    /// <summary>Power of a flat panel that feeds a minute every hour through a month [W].</summary>
    public static double PanelW(double latitudeDeg, int month)
    {
        int middle = new DateTime(2026, month, 15).DayOfYear;
        return Budget(Ratiometric, 60, 3600).PanelW(BatteryV, Sun.HoursOfFullSun(latitudeDeg, middle, 0.2), 0.5);
    }

    private static IEnumerable<(string Name, string Text)> Make() =>
        [.. Choosing(), .. Wiring(), .. Filters(), .. Fitting(), .. Bench(), .. Power()];

    private static IEnumerable<(string Name, string Text)> Choosing()
    {
        double deliveryPa = Water.DensityKgPerM3 * Constants.GravityMPerS2 * 24;
        yield return ("times-delivery", T($"{SensorChoice.TimesDelivery:0}"));
        yield return ("delivery-24m", T($"{deliveryPa / 1e5:0.0} bar"));
        yield return ("range-24m", T($"{SensorChoice.RangeFromDeliveryPa(deliveryPa) / 1e5:0} bar"));
        yield return ("cycles-50", T($"{SensorChoice.CyclesPerYear(50) / 1e6:0} million"));
        yield return ("vented-below", T($"{SensorChoice.VentedBelowPa / 1e5:0} bar"));
        yield return ("sealed-1500m", T($"{SensorChoice.SealedGaugeErrorPa(1500) / 1e3:0} kPa"));
        yield return ("step-10bar", T($"{TenBar.StepPa / 1e3:0.00} kPa"));
        yield return ("noise-10bar", T($"{3 * TenBar.StepPa / 1e3:0.0} kPa"));
        yield return ("bits-10bar", T($"{Noise.EffectiveBits(TenBar.CountsAt(10e5) - TenBar.CountsAt(0), 3):0.0} bits"));
        yield return ("loop-supply", LoopSupply(8));
        yield return ("loop-supply-10v", TenVolts);
        yield return ("shunt-24v", T($"{Shunt.ShortedW(24):0.0} W"));
    }

    private static IEnumerable<(string Name, string Text)> Wiring()
    {
        yield return ("signal-share", T($"{Signal.Share:0.000}"));
        yield return ("signal-volts", T($"{TenBar.VoltsAt(0):0.00} V to {TenBar.VoltsAt(10e5):0.00} V"));
        yield return ("window-share", T($"{100 * (TenBar.VoltsAt(10e5) - TenBar.VoltsAt(0)) / (Converter.UsableHighV - Converter.UsableLowV):0} %"));
        yield return ("share-worst", T($"{100 * Signal.WorstErrorShare(0.01):0.0} %"));
        yield return ("share-likely", T($"{100 * Signal.LikelyErrorShare(0.01):0.0} %"));
        yield return ("share-100ohm", T($"{Signal.ShareBehind(100):0.0000}"));
        yield return ("supply-share", T($"{Supply.Share:0.000}"));
        yield return ("supply-room", T($"{Converter.UsableHighV / Supply.Share:0.0} V"));
        yield return ("count-mv", T($"{Converter.StepV * 1e3:0.000} mV"));
        yield return ("count-kpa", T($"{TenBar.StepPa / 1e3:0.00} kPa"));
        double halfPa = TenBar.PressurePaAt(TenBar.CountsAt(5e5, 4.8));
        yield return ("supply-error", T($"{halfPa / 1e5:0.00} bar instead of 5 bar"));
        yield return ("fuse-drop", T($"{1e3 * FuseLowOhm * SensorA:0} to {1e3 * FuseHighOhm * SensorA:0} mV"));
        yield return ("fuse-error", T($"{100 * FuseHighOhm * SensorA / 5:0.0} %"));
        yield return ("shunt-fault", T($"{Shunt.VoltsAt(0.0215):0.00} V"));
        yield return ("shunt-heat", T($"{1e3 * Shunt.PowerWAt(0.020):0} mW"));
        yield return ("shunt-short", T($"{1e3 * Shunt.ShortedA(12):0} mA and {Shunt.ShortedW(12):0.00} W"));
        yield return ("shunt-short-15", T($"{Shunt.ShortedW(15):0.00} W"));
        yield return ("loop-clamp", T($"{1e3 * (12 - ClampV) / FilterOhm:0.0} mA"));
        yield return ("clamp-volts", T($"{ClampV:0.0} V"));
        yield return ("pin-current", T($"{1e3 * (ClampV - PinLimitV) / GuardOhm:0.0} mA"));
        yield return ("signal-clamp", T($"{1e3 * ((12 * Signal.Share) - ClampV) / (Signal.SourceOhm + FilterOhm):0.00} mA"));
        yield return ("loop-supply-wiring", LoopSupply(8));
        yield return ("loop-supply-10v-wiring", TenVolts);
        yield return ("battery-pin-wiring", T($"{14.4 * Battery.Share:0.00} V"));
        yield return ("battery-equal", T($"{14.4 * new Divider(10e3, 10e3).Share:0.0} V"));
        yield return ("battery-pin-nominal", T($"{BatteryV * Battery.Share:0.0} V"));
        yield return ("signal-zero", T($"{TenBar.VoltsAt(0):0.00} V"));
        yield return ("loop-zero", T($"{Shunt.VoltsAt(0.004):0.00} V"));
        yield return ("signal-shorted", T($"{5 * Signal.Share:0.0} V"));
        yield return ("supply-pin", T($"{4.8 * Supply.Share:0.0} to {5 * Supply.Share:0.0} V"));
        yield return ("shunt-volts", T($"{Shunt.VoltsAt(0.004):0.0} V at 4 mA, {Shunt.VoltsAt(0.020):0.0} V at 20 mA"));
        yield return ("pin-signal", T($"{TenBar.VoltsAt(0):0.00}–{TenBar.VoltsAt(10e5):0.00} V"));
        yield return ("pin-loop", T($"{Shunt.VoltsAt(0.004):0.00}–{Shunt.VoltsAt(0.020):0.00} V"));
        yield return ("pin-supply", T($"{4.8 * Supply.Share:0.0}–{5 * Supply.Share:0.0} V"));
        yield return ("pin-battery", T($"{BatteryV * Battery.Share:0.0} V"));
        yield return ("clamp-leak", T($"{1e3 * 0.2e-6 * Filter.ResistanceOhm:0.0} mV"));
        yield return ("clamp-leak-share", T($"{100 * 0.2e-6 * Filter.ResistanceOhm / (TenBar.VoltsAt(10e5) - TenBar.VoltsAt(0)):0.0} %"));
        foreach (int bits in new[] { 12, 16 })
        {
            Converter external = new() { ZeroV = 0, FullScaleV = 3.3, MaxCounts = (1 << bits) - 1 };
            yield return (T($"step-{bits}"), T($"{(TenBar with { Converter = external }).StepPa:0} Pa"));
        }

        yield return ("series-drop", T($"{10 * SensorA:0.0} V"));
    }

    private static IEnumerable<(string Name, string Text)> Filters()
    {
        yield return ("filter-ohm", T($"{Filter.ResistanceOhm / 1e3:0.0} kΩ"));
        yield return ("loop-filter-ohm", T($"{LoopFilter.ResistanceOhm / 1e3:0.0} kΩ"));
        yield return ("filter-corner", T($"{Filter.CornerHz:0} Hz"));
        yield return ("loop-filter-corner", T($"{LoopFilter.CornerHz:0} Hz"));
        yield return ("filter-settles", T($"{1e3 * Filter.SettlingS(1.0 / 4096):0.0} ms"));
        yield return ("loop-filter-settles", T($"{1e3 * LoopFilter.SettlingS(1.0 / 4096):0.0} ms"));
        yield return ("filter-swings", Swings(Filter));
        yield return ("loop-filter-swings", Swings(LoopFilter));
        yield return ("loop-filter-22nf", T($"{new LowPass(LoopFilter.ResistanceOhm, 22e-9).CornerHz / 1e3:0.0} kHz"));
        foreach (int ms in new[] { 1, 2 })
        {
            SpikeSeen spike = new(ms * 1e-3, SensorRiseS, Filter);
            yield return ($"spike{ms}-filter", T($"{100 * Filter.SpikePassed(ms * 1e-3):0} %"));
            yield return ($"spike{ms}-pin", T($"{100 * spike.AtThePin:0} %"));
            yield return ($"spike{ms}-sampled", T($"{100 * spike.Sampled(1000).Low:0} to {100 * spike.Sampled(1000).High:0} %"));
        }

        yield return ("bandwidth-1ms", T($"{10 * Math.Round(Sampling.BandwidthHz(1e-3) / 10):0} Hz"));
        yield return ("bandwidth-5ms", T($"{10 * Math.Round(Sampling.BandwidthHz(5e-3) / 10):0} Hz"));
    }

    private static IEnumerable<(string Name, string Text)> Fitting()
    {
        foreach (double lengthM in new[] { 0.15, 0.3, 1, 3 })
        {
            TapLine line = new(lengthM, 8e-3);
            double hertz = line.QuarterWaveHz(Water);
            yield return (T($"tap-{lengthM}"), T($"{10 * Math.Round(hertz / 10):0} Hz: good to {Figures(TapLine.ClearUpToHz(hertz))} Hz"));
            yield return (T($"bubble-{lengthM}"), T($"{line.BubbleHz(Water, 1e-6, 160e3):0} Hz"));
        }

        yield return ("tap-fifth", T($"{100 * (TapLine.QuarterWaveAmplification(1, 5) - 1):0.0} %"));
        yield return ("sound", T($"{Water.SoundSpeedMPerS:0} m/s"));
    }

    private static IEnumerable<(string Name, string Text)> Bench()
    {
        SignalPath loop = TenBar with { Output = SensorOutput.FourToTwentyMilliamperes, SignalGain = Shunt.Ohm };
        yield return ("counts-zero", T($"{TenBar.CountsAt(0):0}"));
        yield return ("counts-supply", T($"{TenBar.SupplyCountsAt():0}"));
        yield return ("counts-loop-zero", T($"{loop.CountsAt(0):0}"));
        yield return ("column-2m", Column(2));
        yield return ("column-1m", Column(1));
        yield return ("column-suction", "−" + Column(0.5));
    }

    private static IEnumerable<(string Name, string Text)> Power()
    {
        yield return ("sensor-5v", T($"{1e3 * Ratiometric.SensorA:0.0} mA"));
        yield return ("divider-current", T($"{1e3 * BatteryV / Ratiometric.BatteryDividerOhm:0.00} mA"));
        yield return ("awake-ratio", T($"{1e3 * Ratiometric.AwakeA:0.0} mA"));
        yield return ("asleep-ratio", T($"{1e3 * Ratiometric.AsleepA:0.00} mA"));
        yield return ("awake-loop", T($"{1e3 * Loop.AwakeA:0.0} mA"));
        foreach ((string name, double burstS, double intervalS) in new[] { ("hourly", 60.0, 3600.0), ("ten-minutes", 60, 600), ("six-hours", 30, 21_600) })
        {
            yield return (name, Days(Ratiometric, burstS, intervalS));
            yield return (name + "-on", Days(Ratiometric with { SensorIsSwitched = false }, burstS, intervalS));
        }

        yield return ("always", T($"{1e3 * Ratiometric.AwakeA:0.0} mA, {BatteryC * UsableShare / Ratiometric.AwakeA / 86_400:0} days"));

        // 3.7 V cells, 5 V at the socket, 88 % through the converter.
        yield return ("power-bank", T($"{10 * 3.7 / 5 * 0.88:0.0} Ah"));
        yield return ("battery-pin", T($"{14.4 * Battery.Share:0.00} V"));
        yield return ("cut-off-counts", T($"{Converter.CountsAt(12.0 * Battery.Share):0}"));
    }

    private static string Days(PowerParts parts, double burstS, double intervalS)
    {
        EnergyBudget budget = Budget(parts, burstS, intervalS);
        return T($"{1e3 * budget.MeanA:0.00} mA, {budget.Days(BatteryC, UsableShare):0} days");
    }

    private static EnergyBudget Budget(PowerParts parts, double burstS, double intervalS) =>
        new() { AwakeA = parts.AwakeA, AsleepA = parts.AsleepA, BurstS = burstS, IntervalS = intervalS };

    // The worst of fuse and diode, up to the next tenth.
    private static string TenVolts => T($"{Math.Ceiling(10 * Shunt.LeastSupplyV(10, CellOhm + FuseHighOhm, DiodeHighV)) / 10:0.0} V or more");

    private static string LoopSupply(double transmitterV) => T(
        $"{Shunt.LeastSupplyV(transmitterV, CellOhm + FuseLowOhm, DiodeLowV):0.0} to {Shunt.LeastSupplyV(transmitterV, CellOhm + FuseHighOhm, DiodeHighV):0.0} V");

    private static string Swings(LowPass filter) =>
        T($"{100 * filter.GainAt(500):0} %, {100 * filter.GainAt(5e3):0} %, {100 * filter.GainAt(50e3):0.0} %");

    private static string Column(double heightM) =>
        T($"{Water.DensityKgPerM3 * Constants.GravityMPerS2 * heightM / 1e3:0.0} kPa");

    // Two figures are all that a fifth of a resonance deserves.
    private static string Figures(double hertz) =>
        (hertz >= 100 ? 10 * Math.Round(hertz / 10) : Math.Round(hertz)).ToString("0", CultureInfo.InvariantCulture);

    private static string T(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
