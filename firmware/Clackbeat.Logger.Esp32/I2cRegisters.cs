using System;
using System.Device.I2c;
using Clackbeat.Logger.Board;
using nanoFramework.Hardware.Esp32;

namespace Clackbeat.Logger.Esp32;

/// <summary>The registers of a chip on the first two-wire bus.</summary>
internal sealed class I2cRegisters : IRegisterBus
{
    private const int Bus = 1;

    private readonly I2cDevice _device;
    private readonly byte[] _register = new byte[1];

    /// <summary>Opens the bus to a chip.</summary>
    /// <param name="address">The chip's seven-bit address.</param>
    public I2cRegisters(int address)
    {
        Configuration.SetPinFunction(Wiring.ClockDataPin, DeviceFunction.I2C1_DATA);
        Configuration.SetPinFunction(Wiring.ClockClockPin, DeviceFunction.I2C1_CLOCK);
        _device = new I2cDevice(new I2cConnectionSettings(Bus, address));
    }

    /// <inheritdoc/>
    public void Read(int register, byte[] buffer, int count)
    {
        _register[0] = (byte)register;
        Check(_device.WriteRead(new SpanByte(_register), new SpanByte(buffer, 0, count)));
    }

    /// <inheritdoc/>
    public void Write(int register, byte[] bytes, int count)
    {
        byte[] message = new byte[count + 1];
        message[0] = (byte)register;
        Array.Copy(bytes, 0, message, 1, count);
        Check(_device.Write(new SpanByte(message)));
    }

    private static void Check(I2cTransferResult result)
    {
        if (result.Status != I2cTransferStatus.FullTransfer)
        {
            throw new InvalidOperationException("the clock chip does not answer");
        }
    }
}
