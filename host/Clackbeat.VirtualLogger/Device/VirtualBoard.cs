using System.Text;
using Clackbeat.Logger.Board;
using Clackbeat.Protocol;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Wires;

namespace Clackbeat.VirtualLogger.Device;

/// <summary>
/// The hardware under a virtual logger. Its time passes by what the firmware does (a clock reading, a conversion, a
/// frame sent), as long as the same takes on the real device, so that timing, lateness and overruns come out of
/// the same code in the same way, whatever machine runs it.
/// </summary>
internal sealed class VirtualBoard : ILoggerBoard
{
    // What the real device takes [µs]: inferred, not measured.
    private const double ClockReadUs = 8;
    private const double ConverterReadUs = 150;
    private const double SendUs = 60;
    private const double ReceiveUs = 15;
    private const double RestUs = 1000;

    // How far the device may be ahead of the wall before it waits: the grain of a sleeping thread.
    private const double AheadUs = 2000;

    private readonly IConverterSource _source;
    private readonly IWire _wire;
    private readonly VirtualFaults _faults;
    private readonly Pace _pace;
    private readonly string _deviceId;
    private readonly CancellationToken _cancellation;
    private readonly Random _random;
    private readonly System.Diagnostics.Stopwatch _wall = System.Diagnostics.Stopwatch.StartNew();
    private double _trueUs;
    private double _bootUs;
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
        _pace = options.Pace;
        _deviceId = options.DeviceId;
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

        IsOff = false;
        _bootUs = _trueUs;
    }

    public long NowMicroseconds()
    {
        Pass(ClockReadUs + (_faults.JitterMicroseconds * _random.NextDouble()));
        if (_trueUs >= _nextStallUs)
        {
            _nextStallUs += _faults.StallEveryS!.Value * 1e6;
            Pass(_faults.StallLengthS * 1e6);
        }

        return (long)((_trueUs - _bootUs) * (1 + (_faults.ClockDriftPpm * 1e-6)));
    }

    public int ReadConverter(int channel)
    {
        if (_faults.ConverterThrowsAtS * 1e6 <= _trueUs && !_threw)
        {
            _threw = true;
            throw new InvalidOperationException("converter failed");
        }

        bool read = _source.TryRead(channel, _trueUs * 1e-6, out int counts);
        Pass(ConverterReadUs);
        return read ? counts : -1;
    }

    public void Send(byte[] frame, int length)
    {
        Pass(SendUs);
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
        Pass(ReceiveUs);
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

    public uint FreeMemoryBytes() => 90_000;

    public void CopyDeviceId(byte[] destination) => Encoding.ASCII.GetBytes(_deviceId, destination);

    public long CalendarMilliseconds() => 0;

    public void DeepSleep(long microseconds)
    {
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

    private void Pass(double microseconds)
    {
        _cancellation.ThrowIfCancellationRequested();
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
