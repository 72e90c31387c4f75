using System;
using System.Device.Spi;
using Clackbeat.Logger.Board;
using nanoFramework.Hardware.Esp32;

namespace Clackbeat.Logger.Esp32;

/// <summary>The external converter on the second three-wire bus; the card has the first to itself.</summary>
internal sealed class SpiChip : ISerialChip
{
    private const int Bus = 2;

    // The converter allows 1 MHz at 2.7 V and 2 MHz at 5 V (data sheet, timing parameters).
    private const int ClockHz = 1_000_000;

    private readonly SpiDevice _device;

    /// <summary>Opens the bus.</summary>
    public SpiChip()
    {
        Configuration.SetPinFunction(Wiring.ConverterMosiPin, DeviceFunction.SPI2_MOSI);
        Configuration.SetPinFunction(Wiring.ConverterMisoPin, DeviceFunction.SPI2_MISO);
        Configuration.SetPinFunction(Wiring.ConverterClockPin, DeviceFunction.SPI2_CLOCK);
        _device = new SpiDevice(new SpiConnectionSettings(Bus, Wiring.ConverterSelectPin) { ClockFrequency = ClockHz });
    }

    /// <inheritdoc/>
    public void Transfer(byte[] send, byte[] receive) =>
        _device.TransferFullDuplex(new SpanByte(send), new SpanByte(receive));
}
