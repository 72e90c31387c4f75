using System;
using System.Reflection;

[assembly: AssemblyVersion("1.6.0.0")]

namespace nanoFramework.Hardware.Esp32;

// A function's value is its device type in the upper half, the device's index and the function's own number below.
public enum DeviceFunction
{
    SPI1_MOSI = 0x1_0100,
    SPI1_MISO = 0x1_0101,
    SPI1_CLOCK = 0x1_0102,
    SPI2_MOSI = 0x1_0200,
    SPI2_MISO = 0x1_0201,
    SPI2_CLOCK = 0x1_0202,
    I2C1_DATA = 0x2_0100,
    I2C1_CLOCK = 0x2_0101,
    COM2_TX = 0x3_0200,
    COM2_RX = 0x3_0201,
    COM3_TX = 0x3_0300,
    COM3_RX = 0x3_0301,
    ADC1_CH0 = 0x5_0100,
}

public class Configuration
{
    public static void SetPinFunction(int pin, DeviceFunction value) => throw new NotSupportedException();
}

public class HighResTimer
{
    public static ulong GetCurrent() => throw new NotSupportedException();
}

public enum EspNativeError
{
    OK = 0,
}

public class Sleep
{
    public enum WakeupCause
    {
        Undefined = 0,
        Timer = 4,
    }

    public static EspNativeError EnableWakeupByTimer(TimeSpan time) => throw new NotSupportedException();

    public static void StartDeepSleep() => throw new NotSupportedException();

    public static WakeupCause GetWakeupCause() => throw new NotSupportedException();
}
