using System.Text;
using Clackbeat.Logger.Board;
using Clackbeat.Protocol;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Wires;

namespace Clackbeat.VirtualLogger.Device;

/// <summary>
/// The hardware under a virtual logger. Its time passes by what the firmware does (a clock reading, a conversion, a
/// frame sent, a block written, and instructions where somebody counts them), as long as the same takes on the real
/// device, so that timing, lateness and overruns come out of the same code in the same way, whatever machine runs it.
/// </summary>
internal sealed class VirtualBoard : ILoggerBoard
{
    private const double RestUs = 1000;

    // How far the device may be ahead of the wall before it waits: the grain of a sleeping thread.
    private const double AheadUs = 2000;

    private readonly IConverterSource _source;
    private readonly IWire _wire;
    private readonly VirtualFaults _faults;
    private readonly DeviceCharges _charges;
    private readonly Pace _pace;
    private readonly string _deviceId;
    private readonly CancellationToken _cancellation;
    private readonly Random _random;
    private readonly System.Diagnostics.Stopwatch _wall = System.Diagnostics.Stopwatch.StartNew();
    private double _trueUs;
    private double _bootUs;
    private double _lineFreeUs;
    private long _instructions;
    private readonly bool _hasClockChip;
    private readonly double _sensorSettlesUs;
    private readonly Action<bool>? _sensorInSleep;
    private bool _sensorOn;
    private double _sensorOnUs;
    private long _chipSetMs;
    private double _chipSetUs;
    private double _nextStallUs;
    private bool _rebooted;
    private bool _lostPower;
    private bool _threw;

    public VirtualBoard(
        IConverterSource source, IWire wire, VirtualLoggerOptions options, CancellationToken cancellation)
    {
        _source = source;
        _wire = wire;
        _faults = options.Faults;
        _charges = options.Charges;
        _instructions = _charges.Instructions?.Invoke() ?? 0;
        _pace = options.Pace;
        _deviceId = options.DeviceId;
        _hasClockChip = options.HasClockChip;
        _sensorSettlesUs = options.SensorSettlesS * 1e6;
        _sensorInSleep = options.SensorInSleep;
        if (options.ClockSetMilliseconds > 0)
        {
            SetCalendar(options.ClockSetMilliseconds, 0);
        }

        _cancellation = cancellation;
        _random = new Random(_faults.Seed);
        _nextStallUs = (_faults.StallEveryS ?? double.PositiveInfinity) * 1e6;
    }

    /// <summary>The device is without power: nothing it still does has an effect.</summary>
    public bool IsOff { get; private set; }

    /// <summary>True time at which the power goes for good [µs].</summary>
    public double EndUs { get; init; } = double.PositiveInfinity;

    /// <summary>The line was cut, or the power is gone for good.</summary>
    public bool IsCut { get; private set; }

    public int WakeCause { get; private set; } = WakeCauses.Power;

    /// <summary>Gives power again: the device's clock starts at zero.</summary>
    public void PowerUp()
    {
        if (IsOff)
        {
            WakeCause = WakeCauses.Power;
        }

        // Pins float while the program starts, and the switch is off by its resistor.
        _sensorOn = false;
        IsOff = false;
        _bootUs = _trueUs;
    }

    public long NowMicroseconds()
    {
        Pass(_charges.ClockReadUs + (_faults.JitterMicroseconds * _random.NextDouble()));
        if (_trueUs >= _nextStallUs)
        {
            _nextStallUs += _faults.StallEveryS!.Value * 1e6;
            Pass(_faults.StallLengthS * 1e6);
        }

        return (long)((_trueUs - _bootUs) * (1 + (_faults.ClockDriftPpm * 1e-6)));
    }

    // A sensor without its supply, or that has not settled, puts out nothing.
    private bool SensorTells => _sensorOn && _trueUs - _sensorOnUs >= _sensorSettlesUs;

    public int ReadConverter(int channel)
    {
        if (_faults.ConverterThrowsAtS * 1e6 <= _trueUs && !_threw)
        {
            _threw = true;
            throw new InvalidOperationException("converter failed");
        }

        Pass(0);
        bool read = _source.TryRead(channel, _trueUs * 1e-6, out int counts);
        Pass(_charges.ConversionUs);
        return !read ? -1 : channel == Channels.Battery || SensorTells ? counts : 0;
    }

    public void Send(byte[] frame, int length)
    {
        Pass(_charges.SendUs);
        Transmit(length);
        if (IsOff)
        {
            return;
        }

        if (_faults.CutAtS * 1e6 <= _trueUs)
        {
            IsCut = true;
            IsOff = true;
            throw new PowerLostException();
        }

        if (_random.NextDouble() < _faults.NoiseShare)
        {
            SendNoise();
        }

        if (_faults.RebootAtS * 1e6 <= _trueUs && !_rebooted)
        {
            _rebooted = true;
            IsOff = true;
            _wire.Write(frame.AsSpan(0, length / 2));
            throw new PowerLostException();
        }

        if (_random.NextDouble() < _faults.FlippedShare)
        {
            byte[] flipped = frame[..length];
            flipped[_random.Next(length)] ^= (byte)(1 << _random.Next(8));
            _wire.Write(flipped);
            return;
        }

        _wire.Write(frame.AsSpan(0, length));
    }

    public int Receive(byte[] buffer)
    {
        Pass(_charges.ReceiveUs);
        return IsOff ? 0 : _wire.Read(buffer);
    }

    public void Rest()
    {
        if (_pace == Pace.AsFastAsRead)
        {
            _wire.WaitForInput(1);
        }

        Pass(RestUs);
    }

    public uint FreeMemoryBytes => 90_000;

    public void CountMemory()
    {
    }

    public void PowerSensor(bool on)
    {
        Pass(0);
        _sensorOnUs = on && !_sensorOn ? _trueUs : _sensorOnUs;
        _sensorOn = on;
    }

    public void CopyDeviceId(byte[] destination) => Encoding.ASCII.GetBytes(_deviceId, destination);

    // A chip beside the device: its time is the true one, whatever sleep and crystal do, from when it was set.
    public long CalendarMilliseconds() => _chipSetMs == 0 ? 0 : _chipSetMs + (long)((_trueUs - _chipSetUs) / 1000);

    public long CalendarUncertaintyMilliseconds { get; private set; }

    public bool SetCalendar(long milliseconds, long uncertaintyMilliseconds)
    {
        if (!_hasClockChip)
        {
            return false;
        }

        (_chipSetMs, _chipSetUs) = (milliseconds, _trueUs);
        CalendarUncertaintyMilliseconds = uncertaintyMilliseconds + 1000;
        return true;
    }

    public void DeepSleep(long microseconds)
    {
        _sensorInSleep?.Invoke(_sensorOn);
        Pass(microseconds * (1 + _faults.SleepError));
        WakeCause = WakeCauses.Timer;
    }

    public void Restart() => WakeCause = IsOff ? WakeCauses.Power : WakeCauses.Other;

    private void SendNoise()
    {
        Span<byte> noise = stackalloc byte[8];
        _random.NextBytes(noise);
        _wire.Write(noise[.._random.Next(1, noise.Length)]);
    }

    // What doesn't fit into the transmitter waits until there is room.
    private void Transmit(int length)
    {
        double waitingUs = Math.Max(0, _lineFreeUs - _trueUs);
        double beyondUs = waitingUs + ((length - _charges.TransmitterBytes) * _charges.ByteUs);
        _lineFreeUs = Math.Max(_lineFreeUs, _trueUs) + (length * _charges.ByteUs);
        if (beyondUs > 0)
        {
            Pass(beyondUs);
        }
    }

    /// <summary>True time since the virtual logger began [s].</summary>
    public double TrueS => _trueUs * 1e-6;

    /// <summary>The program waits without end for something that never comes: nothing it does has an effect any more.</summary>
    public void Hang()
    {
        IsCut = true;
        IsOff = true;
        throw new PowerLostException();
    }

    /// <summary>Lets time pass [µs], with what the program did since the last time.</summary>
    public void Pass(double microseconds)
    {
        _cancellation.ThrowIfCancellationRequested();
        if (_charges.Instructions is { } count)
        {
            long now = count();
            _trueUs += (now - _instructions) * _charges.InstructionUs;
            _instructions = now;
        }

        _trueUs += microseconds;
        if (!IsOff)
        {
            LosePowerWhenDue();
        }

        if (_pace == Pace.RealTime && _trueUs > (_wall.Elapsed.TotalMicroseconds + AheadUs))
        {
            WaitForWall();
        }
    }

    private void LosePowerWhenDue()
    {
        IsCut |= _trueUs >= EndUs;
        bool moment = _faults.PowerCutAtS * 1e6 <= _trueUs && !_lostPower;
        _lostPower |= moment;
        if (IsCut || moment)
        {
            IsOff = true;
            throw new PowerLostException();
        }
    }

    private void WaitForWall()
    {
        double aheadMs = (_trueUs - _wall.Elapsed.TotalMicroseconds) / 1000;
        while (aheadMs > 0 && !_cancellation.IsCancellationRequested)
        {
            _cancellation.WaitHandle.WaitOne((int)Math.Min(Math.Max(aheadMs, 1), 100));
            aheadMs = (_trueUs - _wall.Elapsed.TotalMicroseconds) / 1000;
        }
    }
}
