using System.Runtime.InteropServices;
using Clackbeat.Shared.Posix;
using Microsoft.Win32.SafeHandles;

namespace Clackbeat.Recording.Link;

/// <summary>
/// A serial port of a POSIX system, raw, 8 bits, for this program alone. The class library's port wakes a thousand times
/// a second while it is open, which alone costs twice what recording may; this one sleeps in poll(2) until bytes come.
/// </summary>
internal sealed class PosixPort : Stream
{
    // How long a read may go on after the port was disposed of.
    private const int PollMilliseconds = 100;

    private readonly SafeFileHandle _handle;
    private volatile bool _disposed;

    private PosixPort(SafeFileHandle handle) => _handle = handle;

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => true;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    /// <summary>Opens a port.</summary>
    /// <exception cref="PortException">The system refuses; its error number is in it.</exception>
    public static PosixPort Open(string path, int baud)
    {
        int file = Libc.Open(path, Libc.ReadWrite | Libc.NoControllingTerminal | Libc.NonBlocking | Libc.CloseOnExec);
        if (file < 0)
        {
            throw new PortException(Marshal.GetLastPInvokeError());
        }

        SafeFileHandle handle = new(file, ownsHandle: true);
        Span<byte> settings = stackalloc byte[Libc.TermiosRoom];
        if (Libc.GetAttributes(file, settings) < 0)
        {
            return Refuse(handle);
        }

        Libc.MakeRaw(settings);
        Termios.IgnoreModemLines(settings);
        if (Libc.SetSpeed(settings, Termios.SpeedOf(baud)) < 0
            || Libc.SetAttributes(file, 0, settings) < 0
            || !TryClaim(path, file))
        {
            return Refuse(handle);
        }

        return new PosixPort(handle);
    }

    /// <summary>Waits for bytes; 0 when the port is gone or was disposed of.</summary>
    public override int Read(byte[] buffer, int offset, int count)
    {
        while (!_disposed)
        {
            if (!Wait(Libc.PollIn, out short happened))
            {
                continue;
            }

            nint read = Libc.Read(_handle, buffer.AsSpan(offset, count), count);
            if (read > 0)
            {
                return (int)read;
            }

            int error = Marshal.GetLastPInvokeError();
            if ((happened & Libc.PollIn) == 0 || read == 0 || (error != Libc.TryAgain && error != Libc.Interrupted))
            {
                return 0;
            }
        }

        return 0;
    }

    /// <summary>Writes all bytes.</summary>
    /// <exception cref="IOException">The port is gone.</exception>
    public override void Write(byte[] buffer, int offset, int count)
    {
        while (count > 0)
        {
            ObjectDisposedException.ThrowIf(_disposed, this);
            nint written = Libc.Write(_handle, buffer.AsSpan(offset, count), count);
            int error = Marshal.GetLastPInvokeError();
            if (written < 0 && error != Libc.TryAgain && error != Libc.Interrupted)
            {
                throw new IOException("The port is gone.");
            }

            if (written <= 0 && Wait(Libc.PollOut, out short happened) && (happened & Libc.PollOut) == 0)
            {
                throw new IOException("The port is gone.");
            }

            offset += (int)Math.Max(0, written);
            count -= (int)Math.Max(0, written);
        }
    }

    public override void Flush()
    {
        // Nothing is held back here.
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    protected override void Dispose(bool disposing)
    {
        // A read that is under way holds the handle, which is closed when that returns.
        _disposed = true;
        _handle.Dispose();
        base.Dispose(disposing);
    }

    // A lock that programs of good manners heed, and the system's own refusal of further openers. That one outlives a
    // killed program on a pseudo-terminal whose maker keeps it open, so there the lock must do.
    private static bool TryClaim(string path, int file)
    {
        string port = File.ResolveLinkTarget(path, returnFinalTarget: true)?.FullName ?? path;
        return Libc.Lock(file, Libc.LockAtOnce) >= 0
            && (port.StartsWith("/dev/pts/", StringComparison.Ordinal) || Libc.Claim(file, Libc.ExclusiveUse) >= 0);
    }

    private static PosixPort Refuse(SafeFileHandle handle)
    {
        int error = Marshal.GetLastPInvokeError();
        handle.Dispose();
        throw new PortException(error);
    }

    private bool Wait(short wanted, out short happened)
    {
        bool held = false;
        happened = 0;
        try
        {
            _handle.DangerousAddRef(ref held);
            Libc.PollRequest request = new() { File = (int)_handle.DangerousGetHandle(), Wanted = wanted };
            int ready = Libc.Poll(ref request, 1, PollMilliseconds);
            happened = request.Happened;
            return ready > 0;
        }
        finally
        {
            if (held)
            {
                _handle.DangerousRelease();
            }
        }
    }
}

/// <summary>The system refused a port.</summary>
/// <param name="error">Its error number.</param>
internal sealed class PortException(int error) : IOException(Marshal.GetPInvokeErrorMessage(error))
{
    /// <summary>The system's error number.</summary>
    public int Error { get; } = error;
}
