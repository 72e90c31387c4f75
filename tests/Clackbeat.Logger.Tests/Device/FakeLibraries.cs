// The device libraries in small, by their own names: the device build is pointed here to run on this machine.
#pragma warning disable CS0436, CA1707, CA1711, CA1716, CA1720, CA1822, CA1024, CA1000, IDE0130, CA1008, CA1724, CA1052, CA1021, CA1801, IDE0060, SA1402, CA1028
using Clackbeat.Logger.Tests.Device;

namespace System.Device.Adc
{
    public abstract class AdcControllerBase
    {
        public abstract AdcChannel OpenChannel(int channelNumber);
    }

    public class AdcController : AdcControllerBase
    {
        public AdcController()
        {
            if (FakeDevice.Current.ConverterFault is { } words)
            {
                throw new InvalidOperationException(words);
            }
        }

        public override AdcChannel OpenChannel(int channelNumber)
        {
            FakeDevice.Current.Channels.Add(channelNumber);
            return new AdcChannel(channelNumber);
        }
    }

    public abstract class AdcChannelBase
    {
        public abstract int ReadValue();
    }

    public class AdcChannel(int number) : AdcChannelBase
    {
        public override int ReadValue() => 1000 * number % 4096;
    }
}

namespace System.Device.Gpio
{
    public enum PinMode
    {
        Output = 3,
    }

    public readonly struct PinValue(bool high)
    {
        public static PinValue High => new(true);

        public static PinValue Low => new(false);

        public bool IsHigh => high;
    }

    public class GpioController
    {
        public GpioPin OpenPin(int pinNumber, PinMode mode) => new(pinNumber);
    }

    public class GpioPin(int number)
    {
        public void Write(PinValue value) => FakeDevice.Current.Written.Add((number, value.IsHigh));
    }
}

namespace System.IO.Ports
{
    public enum Parity
    {
        None,
    }

    public enum StopBits
    {
        None,
        One,
    }

    public sealed class SerialPort
    {
        public SerialPort(string portName, int baudRate, Parity parity, int dataBits, StopBits stopBits)
        {
            FakeDevice.Current.PortName = $"{portName} {parity} {dataBits} {stopBits}";
            FakeDevice.Current.Baud = baudRate;
        }

        public int ReadBufferSize { get; set; }

        public int BytesToRead => FakeDevice.Current.Waiting();

        public void Open()
        {
        }

        public int Read(byte[] buffer, int offset, int count) => FakeDevice.Current.Take(buffer, offset, count);

        public void Write(byte[] buffer, int offset, int count) => FakeDevice.Current.Send(buffer, offset, count);
    }
}

namespace nanoFramework.Hardware.Esp32
{
    public enum DeviceFunction
    {
    }

    public enum EspNativeError
    {
        OK,
    }

    public class Configuration
    {
        public static void SetPinFunction(int pin, DeviceFunction value) => FakeDevice.Current.Pins.Add((pin, (int)value));
    }

    public class HighResTimer
    {
        public static ulong GetCurrent() => FakeDevice.Current.Microseconds;
    }

    public class Sleep
    {
        public enum WakeupCause
        {
            Undefined,
        }

        public static WakeupCause GetWakeupCause() => WakeupCause.Undefined;

        public static EspNativeError EnableWakeupByTimer(TimeSpan time) => EspNativeError.OK;

        public static void StartDeepSleep() => throw new NotSupportedException();
    }
}

namespace nanoFramework.Runtime.Native
{
    public enum RebootOption
    {
        NormalReboot,
    }

    public class GC
    {
        public static uint Run(bool compactHeap) => 98_765;
    }

    public class Power
    {
        public static void RebootDevice(RebootOption rebootOption) => FakeDevice.Current.TurnOff();
    }
}
