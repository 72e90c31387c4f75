using System.Globalization;
using System.Text.RegularExpressions;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Sensing.Tests.Drawings;

/// <summary>
/// One list of parts and nets stands behind drawings, lists of parts and pages. Here it is held against the firmware's
/// pins, the site file's defaults and the sums, so that none of them can tell another wiring.
/// </summary>
public class NetlistTests
{
    // Channels 0 to 7 of the ESP32's first converter (maker's pin table).
    private static readonly int[] GpioOfChannel = [36, 37, 38, 39, 32, 33, 34, 35];

    public static TheoryData<string> Variants => [.. Netlist.Variants];

    [Theory]
    [MemberData(nameof(Variants))]
    public void TheDrawingIsWhatTheNetlistGives(string variant)
    {
        var netlist = Netlist.Of(variant);
        Repository.HoldTo(new Schematic(netlist).Draw(), "hardware", "drawings", netlist.File);
    }

    [Theory]
    [MemberData(nameof(Variants))]
    public void TheBoardsPinsAreThoseOfTheFirmware(string variant)
    {
        var netlist = Netlist.Of(variant);
        Assert.Equal("PRESSURE_PIN", netlist.NetOf($"U1.GPIO {GpioOfChannel[Constant("PressureInput")]}"));
        Assert.Equal("BATTERY_SENSE", netlist.NetOf($"U1.GPIO {GpioOfChannel[Constant("BatteryInput")]}"));
        Assert.Equal(variant == "loop" ? "GND" : "SUPPLY_PIN", netlist.NetOf($"U1.GPIO {GpioOfChannel[Constant("SupplyInput")]}"));
        Assert.Equal("SENSOR_ON", netlist.NetOf($"U1.GPIO {Constant("SensorSwitchPin")}"));
        Assert.Equal(netlist.NetOf("J2.RXD"), netlist.NetOf($"U1.GPIO {Constant("LineTransmitPin")}"));
        Assert.Equal(netlist.NetOf("J2.TXD"), netlist.NetOf($"U1.GPIO {Constant("LineReceivePin")}"));
        Assert.Equal(netlist.NetOf("J3.CLK"), netlist.NetOf($"U1.GPIO {Constant("CardClockPin")}"));
        Assert.Equal(netlist.NetOf("J3.MISO"), netlist.NetOf($"U1.GPIO {Constant("CardMisoPin")}"));
        Assert.Equal(netlist.NetOf("J3.MOSI"), netlist.NetOf($"U1.GPIO {Constant("CardMosiPin")}"));
        Assert.Equal(netlist.NetOf("J4.SDA"), netlist.NetOf($"U1.GPIO {Constant("ClockDataPin")}"));
        Assert.Equal(netlist.NetOf("J4.SCL"), netlist.NetOf($"U1.GPIO {Constant("ClockClockPin")}"));
        Assert.Equal(netlist.NetOf("J3.CS"), netlist.NetOf($"U1.GPIO {Constant("CardSelectPin")}"));
    }

    // A part's value may stand on a page only as the netlist has it.
    [Fact]
    public void ThePagesNameThePartsValuesAsTheNetlistHasThem()
    {
        var volts = Netlist.Of("ratiometric");
        var loop = Netlist.Of("loop");
        string V(string part) => volts.Parts.Single(p => p.Ref == part).Value;
        string L(string part) => loop.Parts.Single(p => p.Ref == part).Value;
        string wiring = Repository.Text("hardware", "wiring.md");
        Assert.Equal(V("R1"), V("R2"));
        Assert.All(
            new[]
            {
                $"R1 over R2, {V("R1")} each", $"R4 over R5, {V("R4")} over {V("R5")}", $"| C1 | {V("C1")} | {L("C1")} |",
                $"**R6 over R7**, {V("R6")} over {V("R7")} with C4", $"**F1** holds {V("F1")}", $"**F2**, {V("F2")},",
                $"RS, {L("RS").Split(' ')[0]} Ω", $"a resistor of **{string.Join(' ', L("RS").Split(' ')[2..])}**",
            },
            named => Assert.Contains(named, wiring, StringComparison.Ordinal));
        string firmware = Repository.Text("firmware", "README.md");
        Assert.Contains($"{V("R4")} over {V("R5")} with C2", firmware, StringComparison.Ordinal);
        Assert.Contains($"{V("R6")} over {V("R7")} with C4", firmware, StringComparison.Ordinal);
    }

    [Fact]
    public void TheWiringPageNamesTheExternalConvertersPins() => Assert.Contains(
        $"| CLK, DIN, DOUT, CS (11, 9, 10, 8) | DCLK, DIN, DOUT, CS (16, 14, 12, 15) | GPIO {Constant("ConverterClockPin")}, GPIO {Constant("ConverterMosiPin")}, GPIO {Constant("ConverterMisoPin")}, GPIO {Constant("ConverterSelectPin")} |",
        Repository.Text("hardware", "wiring.md"),
        StringComparison.Ordinal);

    [Fact]
    public void TheRatiometricValuesAreTheSiteFilesDefaults()
    {
        var netlist = Netlist.Of("ratiometric");
        LoggerSetup board = SiteSensing.Board;
        Assert.Equal(board.DividerUpperOhm, Ohms(netlist.Of("R1", "resistor")));
        Assert.Equal(board.DividerLowerOhm, Ohms(netlist.Of("R2", "resistor")));
        Assert.Equal(board.SupplyDividerUpperOhm, Ohms(netlist.Of("R4", "resistor")));
        Assert.Equal(board.SupplyDividerLowerOhm, Ohms(netlist.Of("R5", "resistor")));
        Assert.Equal(board.FilterResistorOhm, Ohms(netlist.Of("R3", "resistor")));
        Assert.Equal(board.FilterCapacitorF, Farads(netlist.Of("C1", "capacitor")));
        Assert.Equal(board.BatteryDividerUpperOhm, Ohms(netlist.Of("R6", "resistor")));
        Assert.Equal(board.BatteryDividerLowerOhm, Ohms(netlist.Of("R7", "resistor")));

        // The supply is read where the sensor gets it, behind fuse and switch.
        Assert.Equal(netlist.NetOf("J1.+5 V"), netlist.Of("R4", "resistor").From);
    }

    [Fact]
    public void TheLoopsValuesAreTheSiteFilesDefaults()
    {
        var netlist = Netlist.Of("loop");
        Assert.Equal(SiteSensing.Board.ShuntOhm, Ohms(netlist.Of("RS", "resistor")));
        Assert.Equal(SiteSensing.Board.FilterResistorOhm, Ohms(netlist.Of("R3", "resistor")));
        Assert.Equal(SiteSensing.LoopFilterCapacitorF, Farads(netlist.Of("C1", "capacitor")));
    }

    // The wrong suppressor is a short circuit: 5 to 6 V on a loop of 12 to 15 V, or one that lets 12 V through to the divider.
    [Theory]
    [InlineData("ratiometric", 5.5, 5)]
    [InlineData("loop", 28, 15)]
    public void EveryCoreOfTheSensorsCableHasASuppressorAboveItsVoltage(string variant, double standOffV, double highestV)
    {
        var netlist = Netlist.Of(variant);
        Assert.True(standOffV > highestV);
        foreach ((string pin, string net) in netlist.Block("J1").Pins.Where(p => p.Net is not "GND" and not "SHIELD"))
        {
            Part suppressor = Assert.Single(netlist.Parts, p => p.Kind == "suppressor" && p.From == net);
            Assert.Equal(string.Create(CultureInfo.InvariantCulture, $"stand-off {standOffV} V"), suppressor.Value);
        }
    }

    [Theory]
    [MemberData(nameof(Variants))]
    public void EveryPinOfTheConverterIsClampedOrDividedAndNoneFloats(string variant)
    {
        var netlist = Netlist.Of(variant);
        foreach (string pin in netlist.Block("U1").Pins.Where(p => p.Pin is "GPIO 33" or "GPIO 34" or "GPIO 35").Select(p => p.Net).Where(n => n != "GND"))
        {
            // A clamp stands some tenths of a volt above 3.3 V; a resistor behind it keeps its rest from the pin.
            Part? guard = netlist.Parts.SingleOrDefault(p => p.To == pin && (p.Ref is "R10" or "R11"));
            string net = guard?.From ?? pin;
            Assert.Contains(netlist.Parts, p => p.From == net && p.Kind == "capacitor");
            Assert.True(
                net == "BATTERY_SENSE" || (guard is not null && netlist.Parts.Any(p => p.From == net && p.Kind == "clamp")),
                $"{pin} has no clamp with a resistor behind it");
        }

        // What a pin switches is off while the pin floats, in sleep and at the start.
        Assert.Contains(netlist.Parts, p => p.From == "SENSOR_ON" && p.Hangs && p.Kind == "resistor");
    }

    [Theory]
    [MemberData(nameof(Variants))]
    public void EveryNetJoinsAtLeastTwoThingsAndEveryPartIsDrawn(string variant)
    {
        var netlist = Netlist.Of(variant);
        List<string> ends = [.. netlist.Blocks.SelectMany(b => b.Pins.Select(p => p.Net)), .. netlist.Parts.SelectMany(p => p.Nets),
            .. netlist.Parts.Where(p => p.Control is not null).Select(p => p.Control!)];
        Assert.All(ends.Where(n => n is not "GND" and not "SHIELD").Distinct(), net => Assert.True(ends.Count(n => n == net) >= 2, net));
        string drawing = Repository.Text("hardware", "drawings", netlist.File);
        Assert.All(netlist.Parts, p => Assert.Contains($">{p.Ref}<", drawing, StringComparison.Ordinal));
        Assert.All(netlist.Blocks.SelectMany(b => b.Pins), p => Assert.Contains(p.Pin, drawing, StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Variants))]
    public void TheListOfPartsIsWhatTheNetlistGives(string variant)
    {
        string page = Repository.Text("hardware", "parts.md");
        string made = PartsList.Put(page, Netlist.Of(variant));
        Repository.HoldTo(made, "hardware", "parts.md");
    }

    private static int Constant(string name) => int.Parse(
        Regex.Match(Repository.Text("firmware", "Clackbeat.Logger.Esp32", "Wiring.cs"), $@"\b{name} = (\d+);").Groups[1].Value,
        CultureInfo.InvariantCulture);

    private static double Ohms(Part part) => Value(part.Value) * (part.Value.Contains('k', StringComparison.Ordinal) ? 1e3 : 1);

    // As the defaults are written: so many nanofarads.
    private static double Farads(Part part) => double.Parse(
        part.Value.Split(' ')[0] + "e-9", CultureInfo.InvariantCulture);

    private static double Value(string text) => double.Parse(text.Split(' ')[0], CultureInfo.InvariantCulture);
}
