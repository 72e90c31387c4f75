using System;
using System.Device.Adc;
using System.Device.Gpio;
using System.IO.Ports;
using System.Threading;
using Clackbeat.Logger.Board;
using Clackbeat.Logger.Clock;
using Clackbeat.Logger.Converting;
using Clackbeat.Protocol;
using nanoFramework.Hardware.Esp32;
using nanoFramework.Runtime.Native;

namespace Clackbeat.Logger.Esp32;

/// <summary>The logger's needs, met by an ESP32.</summary>
internal sealed class Esp32Board : ILoggerBoard
{
    private const int RestMilliseconds = 10;

    // Long enough for a person to read the fault, and for a debugger to catch a program that fails at its start.
    private const int PauseBeforeRestartMilliseconds = 3000;

    // The last frame leaves before the clock of the transmitter stops.
    private const int LastFrameMilliseconds = 20;

    private const int ChannelCount = 8;

    // Fixed in the chip (DS3231 data sheet, "slave address").
    private const int ClockAddress = 0x68;

    private const int TicksPerMicrosecond = 10;

    // GPIO of each input of the first converter. The second one is of no use beside a radio.
    private static readonly int[] InputPins = [36, 37, 38, 39, 32, 33, 34, 35];

    private readonly SerialPort _line;
    private readonly AdcChannel?[] _inputs = new AdcChannel?[ChannelCount];
    private readonly GpioPin? _sensorSwitch;
    private readonly ClockChip? _clock;
    private readonly IConverterChip? _external;

    /// <summary>Opens the converter's inputs.</summary>
    /// <param name="line">The open line to a host.</param>
    /// <param name="channelMask">Bit n set: channel n of the protocol is wired.</param>
    public Esp32Board(SerialPort line, int channelMask)
    {
        _line = line;
        AdcController converter = new();
        for (int channel = 0; channel < ChannelCount; channel++)
        {
            if (Wiring.ExternalConverterBits == 0 && (channelMask & (1 << channel)) != 0)
            {
                int input = Wiring.InputOf(channel);
                Configuration.SetPinFunction(InputPins[input], DeviceFunction.ADC1_CH0 + input);
                _inputs[channel] = converter.OpenChannel(input);
            }
        }

        _sensorSwitch = OpenSwitch();
        _external = OpenExternal(Wiring.ExternalConverterBits);
        _clock = Wiring.HasClock ? new ClockChip(new I2cRegisters(ClockAddress)) : null;
        WakeCause = CauseOfWaking();
    }

    /// <inheritdoc/>
    public int WakeCause { get; private set; }

    /// <summary>Starts the device anew; returns only where that can't be done.</summary>
    public static void RestartDevice()
    {
        Thread.Sleep(PauseBeforeRestartMilliseconds);
        try
        {
            Power.RebootDevice();
        }
        catch (Exception)
        {
            // The caller starts the program's parts anew instead.
        }
    }

    /// <inheritdoc/>
    public long NowMicroseconds() => (long)HighResTimer.GetCurrent();

    /// <inheritdoc/>
    public int ReadConverter(int channel)
    {
        if (_external != null)
        {
            return _external.Read(channel);
        }

        AdcChannel? input = _inputs[channel];
        return input == null ? -1 : input.ReadValue();
    }

    /// <inheritdoc/>
    public void Send(byte[] frame, int length) => _line.Write(frame, 0, length);

    /// <inheritdoc/>
    public int Receive(byte[] buffer)
    {
        // Read waits until all it was asked for has come, so it is only asked for what is there.
        int waiting = _line.BytesToRead;
        if (waiting == 0)
        {
            return 0;
        }

        return _line.Read(buffer, 0, waiting < buffer.Length ? waiting : buffer.Length);
    }

    /// <inheritdoc/>
    public void Rest() => Thread.Sleep(RestMilliseconds);

    /// <inheritdoc/>
    public uint FreeMemoryBytes { get; private set; } = ProtocolVersion.Unknown32;

    /// <inheritdoc/>
    public void CountMemory()
    {
        try
        {
            // The memory of the program's own objects, which is a small part of the chip's.
            FreeMemoryBytes = nanoFramework.Runtime.Native.GC.Run(false);
        }
        catch (Exception)
        {
            FreeMemoryBytes = ProtocolVersion.Unknown32;
        }
    }

    /// <inheritdoc/>
    public void PowerSensor(bool on) => _sensorSwitch?.Write(on ? PinValue.High : PinValue.Low);

    /// <inheritdoc/>
    public void CopyDeviceId(byte[] destination)
    {
        for (int i = 0; i < destination.Length; i++)
        {
            destination[i] = i < Wiring.DeviceId.Length ? (byte)Wiring.DeviceId[i] : (byte)' ';
        }
    }

    /// <inheritdoc/>
    public long CalendarMilliseconds() => _clock != null && _clock.TryRead() ? _clock.CalendarMilliseconds : 0;

    /// <inheritdoc/>
    public long CalendarUncertaintyMilliseconds => _clock == null ? 0 : _clock.UncertaintyMilliseconds;

    /// <inheritdoc/>
    public bool SetCalendar(long milliseconds, long uncertaintyMilliseconds) =>
        _clock != null && _clock.TrySet(milliseconds, uncertaintyMilliseconds);

    /// <inheritdoc/>
    public void DeepSleep(long microseconds)
    {
        Thread.Sleep(LastFrameMilliseconds);
        try
        {
            Sleep.EnableWakeupByTimer(new TimeSpan(microseconds * TicksPerMicrosecond));
            Sleep.StartDeepSleep();
        }
        catch (Exception)
        {
            // A board that can't sleep waits as long; the schedule is the same.
            Thread.Sleep((int)(microseconds / 1000));
        }

        WakeCause = WakeCauses.Timer;
    }

    /// <inheritdoc/>
    public void Restart()
    {
        RestartDevice();
        WakeCause = WakeCauses.Other;
    }

    private static IConverterChip? OpenExternal(int bits) => bits switch
    {
        0 => null,
        16 => new Ads8341(new SpiChip()),
        _ => new Mcp3204(new SpiChip()),
    };

    private static GpioPin? OpenSwitch()
    {
        try
        {
            return new GpioController().OpenPin(Wiring.SensorSwitchPin, PinMode.Output);
        }
        catch (Exception)
        {
            // Without pins to switch the sensor is taken to have its supply all the time.
            return null;
        }
    }

    private static int CauseOfWaking()
    {
        try
        {
            Sleep.WakeupCause cause = Sleep.GetWakeupCause();
            return cause == Sleep.WakeupCause.Timer ? WakeCauses.Timer
                : cause == Sleep.WakeupCause.Undefined ? WakeCauses.Power
                : WakeCauses.Other;
        }
        catch (Exception)
        {
            return WakeCauses.Power;
        }
    }
}
