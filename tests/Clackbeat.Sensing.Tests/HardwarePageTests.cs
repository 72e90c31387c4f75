using System.Globalization;
using System.Text.RegularExpressions;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Sensing.Conditioning;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Sensing.Power;
using Clackbeat.Sensing.Tapping;

namespace Clackbeat.Sensing.Tests;

/// <summary>The figures on the hardware pages are those of the code.</summary>
public class HardwarePageTests
{
    private static readonly WaterProperties Water = WaterProperties.At(20);

    [Fact]
    public void The_wiring_page_is_worked_out_right()
    {
        string page = Page("wiring.md");
        LowPass filter = new(new Divider(10e3, 10e3).SourceOhm + 4.7e3, 22e-9);
        Holds(page, $"{filter.CornerHz:0} Hz");
        Holds(page, $"{filter.SettlingS(1.0 / 4096) * 1000:0.0} ms");
        Holds(page, $"{100 * filter.GainAt(500):0} %, {100 * filter.GainAt(5e3):0} %, {100 * filter.GainAt(50e3):0.0} %");
        Holds(page, $"{100 * filter.SpikeLeft(1e-3):0} %, {100 * filter.SpikeLeft(2e-3):0} %");
        Holds(page, $"{new LowPass(4.8e3, 22e-9).CornerHz / 1000:0.0} kHz");
        SignalPath path = new() { RangeLowPa = 0, RangeHighPa = 1e6 };
        Holds(page, $"{path.StepPa / 1000:0.00} kPa of 1000 kPa");
        Holds(page, $"Some {path.CountsAt(0):0} counts and {path.SupplyCountsAt():0} of supply");
        Holds(page, $"{new Divider(10e3, 10e3).ShareBehind(100):0.0000}");
        Holds(page, $"= {new Shunt(100).LeastSupplyV(8, 10):0.0} V");
        Holds(page, $"{100 * path.SignalGain * 4 / 2.3:0} % of the window");
    }

    [Fact]
    public void The_fitting_page_is_worked_out_right()
    {
        string page = Page("fitting.md");
        foreach (double lengthM in new[] { 0.1, 0.3, 1, 3 })
        {
            TapLine line = new(lengthM, 4e-3);
            Assert.Contains(
                page.Split('\n'),
                row => row.StartsWith(string.Create(CultureInfo.InvariantCulture, $"| {lengthM} m |"), StringComparison.Ordinal)
                    && row.Contains(string.Create(CultureInfo.InvariantCulture, $"{line.BubbleHz(Water, 1e-6, 160e3):0} Hz"), StringComparison.Ordinal)
                    && QuarterWave(row) is double hertz && Math.Abs((hertz / line.QuarterWaveHz(Water)) - 1) < 0.01);
        }
    }

    [Fact]
    public void The_power_page_is_worked_out_right()
    {
        string page = Page("power.md");
        foreach ((double burst, double interval) in new[] { (60.0, 3600.0), (60, 600), (30, 21600) })
        {
            EnergyBudget budget = new() { AwakeA = 0.09, AsleepA = 0.001, BurstS = burst, IntervalS = interval };
            Holds(page, $"| {budget.MeanA * 1000:0.0} mA | {budget.Days(36e3, 0.8):0} |");
        }

        EnergyBudget hourly = new() { AwakeA = 0.09, AsleepA = 0.001, BurstS = 60, IntervalS = 3600 };
        Holds(page, $"{hourly.ChargePerDayC / 3.6:0} mAh a day");
        Holds(page, $"a panel of {hourly.PanelW(5, 1, 0.5):0.0} W");
    }

    [Fact]
    public void Pages_and_drawings_name_the_pins_that_the_firmware_takes()
    {
        // Channels 0 to 7 of the ESP32's first converter (maker's pin table).
        int[] gpioOfChannel = [36, 37, 38, 39, 32, 33, 34, 35];
        string wiring = File.ReadAllText(InRepository("firmware", "Clackbeat.Logger.Esp32", "Wiring.cs"));
        int Constant(string name) => int.Parse(
            Regex.Match(wiring, $@"\b{name} = (\d+);").Groups[1].Value, CultureInfo.InvariantCulture);
        int pressure = gpioOfChannel[Constant("PressureInput")];
        int supply = gpioOfChannel[Constant("SupplyInput")];
        Holds(Page("wiring.md"), $"GPIO {pressure} reads the pressure, GPIO {supply} the sensor's supply");
        Holds(Page("wiring.md"), $"GPIO {Constant("LineTransmitPin")} and {Constant("LineReceivePin")} (COM2)");
        Holds(Page("drawings/wiring-ratiometric.svg"), $">GPIO {pressure}<");
        Holds(Page("drawings/wiring-ratiometric.svg"), $">GPIO {supply}<");
        Holds(Page("drawings/wiring-current-loop.svg"), $">GPIO {pressure}<");
    }

    private static double? QuarterWave(string row) => double.TryParse(
        row.Split('|')[2].Trim().Split(' ')[0], CultureInfo.InvariantCulture, out double hertz) ? hertz : null;

    private static void Holds(string page, FormattableString figure) =>
        Assert.Contains(figure.ToString(CultureInfo.InvariantCulture), page.Replace('\n', ' '), StringComparison.Ordinal);

    private static string Page(string name) => File.ReadAllText(InRepository("hardware", name));

    private static string InRepository(params string[] names)
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Clackbeat.slnx")))
        {
            folder = folder.Parent;
        }

        return Path.Combine([folder!.FullName, .. names]);
    }
}
