using Clackbeat.Logger.Converting;
using Clackbeat.Protocol;

namespace Clackbeat.Logger.Esp32;

/// <summary>
/// All that may differ between one board and the next, in one place: pins, port, name, and how the logger works. The
/// text that goes with it is firmware/README.md.
/// </summary>
internal static class Wiring
{
    /// <summary>Tells this board from others: eight characters of ASCII. Give each board its own.</summary>
    public const string DeviceId = "ram-0001";

    /// <summary>
    /// The serial port of the data. COM1 belongs to the runtime's debugger and must not be taken.
    /// </summary>
    public const string LinePort = "COM2";

    /// <summary>Speed of that port [bit/s].</summary>
    public const int LineBaud = 115_200;

    /// <summary>GPIO that sends, to the adapter's RXD.</summary>
    public const int LineTransmitPin = 25;

    /// <summary>GPIO that receives, from the adapter's TXD.</summary>
    public const int LineReceivePin = 26;

    /// <summary>Converter channel of the pressure sensor's signal, behind its divider: 6 is GPIO 34.</summary>
    public const int PressureInput = 6;

    /// <summary>Converter channel of the sensor's supply, behind its divider: 7 is GPIO 35.</summary>
    public const int SupplyInput = 7;

    /// <summary>Converter channel of a second sensor in the delivery pipe: 4 is GPIO 32.</summary>
    public const int DeliveryInput = 4;

    /// <summary>Converter channel of the battery, behind its divider: 5 is GPIO 33.</summary>
    public const int BatteryInput = 5;

    /// <summary>
    /// GPIO that switches the sensor's supply: high is on. It is low in sleep and at the start of the board, by a
    /// resistor to ground.
    /// </summary>
    public const int SensorSwitchPin = 27;

    /// <summary>
    /// The sensor is a two-wire transmitter of 4 to 20 mA: its supply isn't read, and GPIO 35 is wired to ground.
    /// </summary>
    public const bool SensorIsLoop = false;

    /// <summary>Time from switching the sensor on to its first sample [ms]: by its data sheet, and some more.</summary>
    public const int SensorSettleMilliseconds = 500;

    /// <summary>
    /// Battery reading below which nothing is recorded [counts]; 0 for none. "clackbeat site check" works it out from the
    /// voltage under [battery] cut_off.
    /// </summary>
    public const int BatteryCutOffCounts = 0;

    /// <summary>A second sensor sits in the delivery pipe.</summary>
    public const bool HasDelivery = false;

    /// <summary>The battery is wired to its input.</summary>
    public const bool HasBattery = false;

    /// <summary>
    /// Bits of a converter of its own: 12 for an MCP3204, 16 for an ADS8341, 0 for none. It reads signal (CH0), supply (CH1),
    /// delivery (CH2) and battery (CH3) in place of the board's.
    /// </summary>
    public const int ExternalConverterBits = 0;

    /// <summary>GPIO of the external converter's clock.</summary>
    public const int ConverterClockPin = 14;

    /// <summary>GPIO of the external converter's data from the board.</summary>
    public const int ConverterMosiPin = 13;

    /// <summary>GPIO of the external converter's data to the board.</summary>
    public const int ConverterMisoPin = 4;

    /// <summary>GPIO of the external converter's chip select; the delivery sensor then needs no pin of the board.</summary>
    public const int ConverterSelectPin = 32;

    /// <summary>A clock chip (DS3231) is wired: the calendar then lasts through sleep and loss of power.</summary>
    public const bool HasClock = false;

    /// <summary>GPIO of the clock chip's data.</summary>
    public const int ClockDataPin = 21;

    /// <summary>GPIO of the clock chip's clock.</summary>
    public const int ClockClockPin = 22;

    /// <summary>A card reader is wired.</summary>
    public const bool HasCard = false;

    /// <summary>GPIO of the card reader's clock.</summary>
    public const int CardClockPin = 18;

    /// <summary>GPIO of the card reader's data to the board.</summary>
    public const int CardMisoPin = 19;

    /// <summary>GPIO of the card reader's data from the board.</summary>
    public const int CardMosiPin = 23;

    /// <summary>GPIO of the card reader's chip select.</summary>
    public const uint CardSelectPin = 5;

    /// <summary>True: the board records bursts by itself while no host speaks. It needs the card.</summary>
    public const bool WorksAlone = false;

    /// <summary>How the logger works until a host says otherwise.</summary>
    public static LoggerSettings Settings() => new()
    {
        Baud = LineBaud,
        ConverterMax = ExternalConverterBits == 16 ? Ads8341.MaxCounts : Mcp3204.MaxCounts,
        ChannelMask = (1 << Channels.Pressure) | (SensorIsLoop ? 0 : 1 << Channels.Supply)
            | (HasDelivery ? 1 << Channels.Delivery : 0) | (HasBattery ? 1 << Channels.Battery : 0),
        PeriodMicroseconds = 1000,
        SupplyEvery = SensorIsLoop ? 0 : 32,
        DeliveryEvery = HasDelivery ? 8 : 0,
        WorksAlone = WorksAlone && HasCard,
        SensorSettleMilliseconds = SensorSettleMilliseconds,
        BatteryCutOffCounts = BatteryCutOffCounts,
        BurstLengthMilliseconds = 60_000,
        BurstIntervalMilliseconds = 3_600_000,
    };

    /// <summary>Converter input of a channel of the protocol.</summary>
    public static int InputOf(int channel) => channel switch
    {
        Channels.Pressure => PressureInput,
        Channels.Supply => SupplyInput,
        Channels.Delivery => DeliveryInput,
        _ => BatteryInput,
    };
}
