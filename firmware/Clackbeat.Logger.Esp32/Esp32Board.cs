using System;
using System.Device.Adc;
using System.IO.Ports;
using System.Threading;
using Clackbeat.Logger.Board;
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
    private const int TicksPerMicrosecond = 10;

    // GPIO of each input of the first converter. The second one is of no use beside a radio.
    private static readonly int[] InputPins = [36, 37, 38, 39, 32, 33, 34, 35];

    private readonly SerialPort _line;
    private readonly AdcChannel?[] _inputs = new AdcChannel?[ChannelCount];
    private bool _tellsMemory = true;

    /// <summary>Opens the converter's inputs.</summary>
    /// <param name="line">The open line to a host.</param>
    /// <param name="channelMask">Bit n set: channel n of the protocol is wired.</param>
    public Esp32Board(SerialPort line, int channelMask)
    {
        _line = line;
        AdcController converter = new();
        for (int channel = 0; channel < ChannelCount; channel++)
        {
            if ((channelMask & (1 << channel)) != 0)
            {
                int input = Wiring.InputOf(channel);
                Configuration.SetPinFunction(InputPins[input], DeviceFunction.ADC1_CH0 + input);
                _inputs[channel] = converter.OpenChannel(input);
            }
        }

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
    public uint FreeMemoryBytes()
    {
        if (_tellsMemory)
        {
            try
            {
                NativeMemory.GetMemoryInfo(NativeMemory.MemoryType.All, out _, out uint free, out _);
                return free;
            }
            catch (Exception)
            {
                // Not asked again: an exception is dear between two samples.
                _tellsMemory = false;
            }
        }

        return ProtocolVersion.Unknown32;
    }

    /// <inheritdoc/>
    public void CopyDeviceId(byte[] destination)
    {
        for (int i = 0; i < destination.Length; i++)
        {
            destination[i] = i < Wiring.DeviceId.Length ? (byte)Wiring.DeviceId[i] : (byte)' ';
        }
    }

    /// <inheritdoc/>
    public long CalendarMilliseconds() => 0;

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
