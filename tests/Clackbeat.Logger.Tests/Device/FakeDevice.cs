namespace Clackbeat.Logger.Tests.Device;

/// <summary>
/// A device behind the libraries of <c>FakeLibraries.cs</c>: what the program under test sets, sends and reads. One a
/// thread, since the program has one.
/// </summary>
public sealed class FakeDevice
{
    [ThreadStatic]
    private static FakeDevice? _current;

    private readonly List<byte> _sent = [];
    private readonly Queue<byte> _received = [];
    private readonly System.Diagnostics.Stopwatch _clock = System.Diagnostics.Stopwatch.StartNew();
    private volatile bool _isOff;

    /// <summary>The device of the program that calls; its thread stands still for ever once the device is off.</summary>
    public static FakeDevice Current
    {
        get
        {
            FakeDevice device = _current ?? throw new InvalidOperationException("no device on this thread");
            if (device._isOff)
            {
                Thread.Sleep(Timeout.Infinite);
            }

            return device;
        }
    }

    /// <summary>What the converter says instead of working; null when it works.</summary>
    public string? ConverterFault { get; init; }

    /// <summary>Functions that were given to pins, in order.</summary>
    public List<(int Pin, int Function)> Pins { get; } = [];

    /// <summary>What was written to pins, in order.</summary>
    public List<(int Pin, bool High)> Written { get; } = [];

    /// <summary>Converter channels that were opened.</summary>
    public List<int> Channels { get; } = [];

    public string? PortName { get; set; }

    public int Baud { get; set; }

    public ulong Microseconds => (ulong)_clock.Elapsed.TotalMicroseconds;

    /// <summary>Runs a program on this device, on a thread of its own.</summary>
    public void Run(Action program)
    {
        new Thread(() =>
        {
            _current = this;
            program();
        })
        { IsBackground = true }.Start();
    }

    public void TurnOff() => _isOff = true;

    public void Send(byte[] bytes, int offset, int count)
    {
        lock (_sent)
        {
            _sent.AddRange(bytes.AsSpan(offset, count));
        }
    }

    /// <summary>All that was sent so far.</summary>
    public byte[] Sent()
    {
        lock (_sent)
        {
            return [.. _sent];
        }
    }

    /// <summary>Puts bytes into the receiver.</summary>
    public void Receive(byte[] bytes)
    {
        lock (_received)
        {
            Array.ForEach(bytes, _received.Enqueue);
        }
    }

    public int Waiting()
    {
        lock (_received)
        {
            return _received.Count;
        }
    }

    public int Take(byte[] buffer, int offset, int count)
    {
        lock (_received)
        {
            for (int i = 0; i < count; i++)
            {
                buffer[offset + i] = _received.Dequeue();
            }

            return count;
        }
    }
}
