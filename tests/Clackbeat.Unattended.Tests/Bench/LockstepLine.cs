using System.Runtime.InteropServices;
using Clackbeat.Recording.Link;
using Clackbeat.Site.Facts;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.VirtualLogger.Wires;

namespace Clackbeat.Unattended.Tests.Bench;

/// <summary>
/// A virtual logger on a line that moves the bench's clock as far as its own device time went, whenever bytes are read: a
/// minute's burst passes in a moment and carries the time stamps of a minute.
/// </summary>
internal sealed class LockstepLine : ILineOpener, IConverterSource, IDisposable
{
    // Somewhat over a second of samples at 250 a second.
    private const int Room = 1024;
    private static readonly TimeSpan Idle = TimeSpan.FromMilliseconds(20);

    private readonly BenchClock _clock;
    private readonly IConverterSource _source;
    private readonly CancellationTokenSource _powerOff = new();
    private readonly Task _device;
    private readonly object _gate = new();
    private readonly List<byte> _toHost = [];
    private readonly Queue<byte> _toDevice = new();
    private HostEnd? _host;
    private bool _deviceWaits;
    private double _deviceS;
    private double _handedS;

    public LockstepLine(string name, BenchClock clock, IConverterSource source, VirtualLoggerOptions options)
    {
        (Name, _clock, _source) = (name, clock, source);
        _clock.Lines++;
        _device = VirtualLogger.VirtualLogger.Run(this, new DeviceEnd(this), options with { Pace = Pace.AsFastAsRead }, _powerOff.Token);
    }

    public string Name { get; }

    /// <summary>Its bytes come in whole pieces.</summary>
    public TimeSpan Rest => TimeSpan.Zero;

    /// <summary>A host has it open.</summary>
    public bool IsInUse
    {
        get
        {
            lock (_gate)
            {
                return _host is not null;
            }
        }
    }

    /// <summary>The cable is out: opening fails, and an open line ends.</summary>
    public bool IsUnplugged { get; private set; }

    public bool TryRead(int channel, double timeS, out int counts)
    {
        lock (_gate)
        {
            _deviceS = timeS;
        }

        return _source.TryRead(channel, timeS, out counts);
    }

    public Stream Open()
    {
        lock (_gate)
        {
            if (IsUnplugged)
            {
                throw new LineException(LineFault.Missing, Fact.Of("line.missing", ("port", Name)), null);
            }

            if (_host is not null)
            {
                throw new LineException(LineFault.Busy, Fact.Of("line.busy", ("port", Name)), null);
            }

            _toHost.Clear();
            _handedS = _deviceS;
            Monitor.PulseAll(_gate);
            return _host = new HostEnd(this);
        }
    }

    public void Unplug()
    {
        lock (_gate)
        {
            IsUnplugged = true;
            Monitor.PulseAll(_gate);
        }
    }

    public void Plug()
    {
        lock (_gate)
        {
            IsUnplugged = false;
        }
    }

    public void Dispose()
    {
        _powerOff.Cancel();
        _device.Wait();
        _powerOff.Dispose();
    }

    private int ReadHost(HostEnd reader, Span<byte> buffer)
    {
        int count = 0;
        TimeSpan passed = default;
        while (count == 0)
        {
            bool isIdle;
            lock (_gate)
            {
                isIdle = !IsReady(reader) && !Monitor.Wait(_gate, IsQuiet ? QuietWait : Idle);
                if (HasEnded(reader))
                {
                    return 0;
                }

                if (IsReady(reader))
                {
                    isIdle = false;
                    count = Math.Min(buffer.Length, _toHost.Count);
                    CollectionsMarshal.AsSpan(_toHost)[..count].CopyTo(buffer);
                    _toHost.RemoveRange(0, count);
                    passed = TimeSpan.FromSeconds(_deviceS - _handedS);
                    _handedS = _deviceS;
                    Monitor.PulseAll(_gate);
                }
            }

            // A logger that was just switched on may miss a question; who waits for the answer must see time pass to ask again.
            // Where the logger itself waits for a question nothing can come, and time passes without anybody waiting for it.
            if (isIdle)
            {
                _clock.Advance(Idle);
            }
        }

        // A program on a busy machine must find the time to take a second's samples, or a burst becomes far longer than asked
        // for; of several lines none may run off with the clock that all share.
        Thread.Sleep(_clock.Lines > 1 ? 5 : 1);
        _clock.Advance(passed);
        return count;
    }

    private bool IsQuiet => _deviceWaits && _toHost.Count == 0 && _toDevice.Count == 0;

    // Of several lines none may run off with the clock while another's logger is about to answer.
    private TimeSpan QuietWait => TimeSpan.FromMilliseconds(_clock.Lines > 1 ? 5 : 1);

    private bool IsReady(HostEnd reader) => HasEnded(reader) || _toHost.Count >= Room || (_toHost.Count > 0 && _deviceWaits);

    private bool HasEnded(HostEnd reader) => reader.IsClosed || IsUnplugged || _powerOff.IsCancellationRequested;

    private sealed class HostEnd(LockstepLine line) : Stream
    {
        public bool IsClosed { get; private set; }

        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => true;

        public override long Length => throw new NotSupportedException();

        public override long Position
        {
            get => throw new NotSupportedException();
            set => throw new NotSupportedException();
        }

        public override void Flush()
        {
        }

        public override int Read(byte[] buffer, int offset, int count) => line.ReadHost(this, buffer.AsSpan(offset, count));

        public override void Write(byte[] buffer, int offset, int count)
        {
            lock (line._gate)
            {
                if (line.IsUnplugged)
                {
                    throw new IOException("unplugged");
                }

                foreach (byte b in buffer.AsSpan(offset, count))
                {
                    line._toDevice.Enqueue(b);
                }

                Monitor.PulseAll(line._gate);
            }
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        protected override void Dispose(bool disposing)
        {
            lock (line._gate)
            {
                IsClosed = true;
                line._host = line._host == this ? null : line._host;
                Monitor.PulseAll(line._gate);
            }

            base.Dispose(disposing);
        }
    }

    // Where nobody reads, a board's bytes are lost and its time goes on; here it stands still, for nobody would notice.
    private sealed class DeviceEnd(LockstepLine line) : IWire
    {
        public void Write(ReadOnlySpan<byte> bytes)
        {
            lock (line._gate)
            {
                while (line._host is null || line._toHost.Count >= Room)
                {
                    if (line._powerOff.IsCancellationRequested)
                    {
                        return;
                    }

                    Monitor.Wait(line._gate, Idle);
                }

                line._deviceWaits = false;
                line._toHost.AddRange(bytes);
                Monitor.PulseAll(line._gate);
            }
        }

        public int Read(Span<byte> buffer)
        {
            lock (line._gate)
            {
                int count = Math.Min(buffer.Length, line._toDevice.Count);
                for (int i = 0; i < count; i++)
                {
                    buffer[i] = line._toDevice.Dequeue();
                }

                // What it read it may answer.
                line._deviceWaits &= count == 0;
                return count;
            }
        }

        public void WaitForInput(int milliseconds)
        {
            lock (line._gate)
            {
                line._deviceWaits = line._toDevice.Count == 0;
                Monitor.PulseAll(line._gate);
                if (line._deviceWaits)
                {
                    Monitor.Wait(line._gate, 1);
                }
            }
        }

        public void Dispose()
        {
        }
    }
}
