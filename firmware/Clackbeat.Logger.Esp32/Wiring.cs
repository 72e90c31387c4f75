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

    /// <summary>A second sensor sits in the delivery pipe.</summary>
    public const bool HasDelivery = false;

    /// <summary>The battery is wired to its input.</summary>
    public const bool HasBattery = false;

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
        ChannelMask = (1 << Channels.Pressure) | (1 << Channels.Supply)
            | (HasDelivery ? 1 << Channels.Delivery : 0) | (HasBattery ? 1 << Channels.Battery : 0),
        PeriodMicroseconds = 1000,
        SupplyEvery = 32,
        DeliveryEvery = HasDelivery ? 8 : 0,
        WorksAlone = WorksAlone && HasCard,
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
